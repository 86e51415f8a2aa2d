package claims

// Understood is what was made of the figures of one side of a claim that a
// person typed, so that they can see it: nothing they typed is dropped
// silently.
type Understood struct {
	Name    string // the side: "Kestrine"
	Parts   []Part
	Assumed []string // what was taken for granted, in words
	Left    []string // words that were not used
}

// A Part is one thing understood, with the words it came from.
type Part struct {
	What  string // "mean", "SD", "n", "unit"
	Value string // "702.3"; "not given"
	Words string // "(106.8)"; "" where nothing was typed
}
