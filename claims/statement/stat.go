package statement

import (
	"strconv"
	"strings"

	"probity/claims"
	"probity/extract"
)

// statNames gives the name of the audit format for the letter a test
// statistic is printed with.
var statNames = map[string]string{"F": "F", "t": "t", "T": "t", "χ²": "chi2", "χ2": "chi2", "χ": "chi2", "X2": "chi2", "X²": "chi2", "x2": "chi2", "Χ2": "chi2", "H": "H", "U": "U",
	"W": "W", "z": "z", "Z": "z", "r": "r", "R": "r", "q": "q", "Q": "Q"}

func statName(s string) string { return statNames[s] }

// statistics reads the printed test statistics: "F(2,27) = 5.1, p = .013",
// "t = 2.4", "χ² (2) = 9.1", "H = 21.67", "U = 34.5".
func (s *sentence) statistics() {
	for i := s.from; i < s.to; i++ {
		if s.sortOf(i) != wordToken {
			continue
		}
		st, end := s.statisticAt(i)
		if st == nil {
			continue
		}
		out := &claims.Statement{Kind: claims.TestStatistic, Stat: st, Printed: s.raw(i, end), Value: st.Value, P: st.P}
		c := clause{s.from, s.to}
		for _, k := range s.clauses() {
			if i >= k.from && i < k.to {
				c = k
			}
		}
		if !out.P.Known() {
			out.P = s.pIn(c)
			out.Stat.P = out.P
		}
		sd := s.sidesOf(c.from, c.to, i)
		s.tie(out, c.from, c.to, i, sd)
		out.Rests = []string{s.raw(i, end)}
		s.emit(out)
		i = end - 1
	}
}

func (s *sentence) statisticAt(i int) (*claims.Statistic, int) {
	name := statName(s.raw(i, i+1))
	j := i + 1
	if name == "" {
		// "Chi-square = 9.1"
		if w := strings.ToLower(s.raw(i, i+1)); w == "chi" {
			for j < i+4 && !strings.HasPrefix(strings.ToLower(s.raw(j, j+1)), "squar") {
				j++
			}
			if j == i+4 {
				return nil, 0
			}
			j++
			name = "chi2"
		} else {
			return nil, 0
		}
	}
	if s.sign(i-1) == '-' && !s.at(i-1).gap && s.sign(i-2) == 0 {
		return nil, 0
	}
	if s.sortOf(j) == markToken { // χ² with a raised 2
		j++
	}
	if strings.EqualFold(s.raw(j, j+1), "test") || strings.EqualFold(s.raw(j, j+1), "value") || strings.EqualFold(s.raw(j, j+1), "statistic") {
		j++
	}
	st := &claims.Statistic{Name: name}
	if c := s.sign(j); c == '(' || c == '[' {
		end := closing(s.toks[:s.to], j)
		if end < 0 || end-j > 9 {
			return nil, 0
		}
		st.DF = s.degrees(j+1, end)
		if len(st.DF) == 0 {
			return nil, 0
		}
		j = end + 1
	} else if s.sortOf(j) == numberToken && !s.at(j).gap && name == "F" { // F2,27
		k := j
		st.DF = append(st.DF, s.splitNumber(k)...)
		if s.sign(k+1) == ',' && s.sortOf(k+2) == numberToken && len(st.DF) == 1 {
			st.DF = append(st.DF, s.number(k+2))
			k += 2
		}
		j = k + 1
	}
	if s.sign(j) != '=' && s.sign(j) != ':' && s.sign(j) != '¼' {
		return nil, 0
	}
	value := s.number(j + 1)
	if !value.Known() {
		return nil, 0
	}
	st.Value = value
	end := j + 2
	// "t = 2.4, df = 18, p = .03"
	for k := end; k < end+7 && k < s.to; k++ {
		if w := strings.ToLower(s.raw(k, k+1)); w == "df" && len(st.DF) == 0 {
			if s.sign(k+1) == '=' && s.sortOf(k+2) == numberToken {
				st.DF = append(st.DF, s.splitNumber(k+2)...)
			}
		}
		if q := s.quantAt(k); q >= 0 && s.quants[q].role == roleP {
			st.P = s.pNumber(q)
			break
		}
		if k > end && s.statHere(k) {
			break
		}
	}
	return st, end
}

func (s *sentence) statHere(k int) bool {
	return s.sortOf(k) == wordToken && statName(s.raw(k, k+1)) != "" && s.raw(k, k+1) != "t"
}

// degrees reads the numbers of "(2,27)", "(2, 27)", "(df = 2; 27)", "(1,083)".
func (s *sentence) degrees(from, to int) []extract.Number {
	var out []extract.Number
	for i := from; i < to; i++ {
		switch t := s.at(i); {
		case t.sort == numberToken:
			out = append(out, s.splitNumber(i)...)
		case t.sort == signToken && (t.sign == ',' || t.sign == ';' || t.sign == '=' || t.sign == '/'):
		case t.sort == wordToken && strings.EqualFold(s.raw(i, i+1), "df"):
		default:
			return nil
		}
	}
	if len(out) > 2 {
		return nil
	}
	return out
}

// splitNumber undoes a decimal or thousands comma inside degrees of freedom.
func (s *sentence) splitNumber(i int) []extract.Number {
	n := s.number(i)
	parts := strings.Split(n.Text, ",")
	if len(parts) == 1 {
		return []extract.Number{n}
	}
	var out []extract.Number
	for _, p := range parts {
		v, err := strconv.ParseFloat(p, 64)
		if err != nil {
			return nil
		}
		out = append(out, extract.Number{Text: p, Value: v, Place: n.Place})
	}
	return out
}
