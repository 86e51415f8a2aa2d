package statement

// statNames gives the name of the audit format for the letter a test
// statistic is printed with.
var statNames = map[string]string{"F": "F", "t": "t", "T": "t", "χ²": "chi2", "χ2": "chi2", "χ": "chi2", "X2": "chi2", "X²": "chi2", "x2": "chi2", "H": "H", "U": "U",
	"W": "W", "z": "z", "Z": "z", "r": "r", "R": "r", "q": "q", "Q": "Q"}

func statName(s string) string { return statNames[s] }
