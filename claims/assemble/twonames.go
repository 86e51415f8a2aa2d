package assemble

import "strings"

// Labels may hold two names at once: "Hardness G1", "Hardness G2", "Wear G1",
// "Wear G2". Where all labels of a dimension are made of one of some beginnings
// and one of some ends, each with each, and one of the two is known to be
// groups or times, they are two dimensions.

// mostNameWords is how many words of a label may be its first or last name.
const mostNameWords = 4

// twoNames parts a dimension in two, nil where its labels hold one name.
func (t *table) twoNames(d *dim) []*dim {
	if len(d.distinct) < 4 || len(d.distinct) > 40 {
		return nil
	}
	whole := 0
	for _, s := range d.distinct {
		if t.arms.exact(s) != nil {
			whole++
		}
	}
	if whole > 1 {
		return nil // the two together are the name of a group
	}
	for k := 1; k <= mostNameWords; k++ {
		for _, last := range []bool{true, false} {
			parts := map[string][2]string{}
			for _, s := range d.distinct {
				first, second, ok := cutWords(s, k, last)
				if !ok {
					break
				}
				parts[s] = [2]string{first, second}
			}
			if len(parts) == len(d.distinct) && t.crossed(d, parts) {
				return t.parted(d, parts)
			}
		}
	}
	return nil
}

// cutWords cuts k words off the end of a name, or off its beginning.
func cutWords(s string, k int, last bool) (first, second string, ok bool) {
	w := strings.Fields(s)
	if len(w) <= k {
		return "", "", false
	}
	at := k
	if last {
		at = len(w) - k
	}
	if strings.HasSuffix(strings.ToLower(w[at-1]), "group") && groupToken(w[at]) {
		return "", "", false // "group A" is one
	}
	if !last && strings.EqualFold(w[at], "group") && len(w) > at+1 {
		at++ // "lamp group" is one
	}
	return strings.Trim(strings.Join(w[:at], " "), " ,;:–—-"), strings.Join(w[at:], " "), true
}

// crossed reports whether the names are each of the first with each of the
// second, two or more of both, and one side is groups or times.
func (t *table) crossed(d *dim, parts map[string][2]string) bool {
	var sides [2]map[string]bool
	for i := range sides {
		sides[i] = map[string]bool{}
	}
	for _, p := range parts { // any order: sets
		sides[0][p[0]], sides[1][p[1]] = true, true
	}
	if len(sides[0]) < 2 || len(sides[1]) < 2 || len(sides[0])*len(sides[1]) != len(parts) {
		return false
	}
	for _, side := range sides {
		groups, times := true, true
		for s := range side { // any order: all of them
			groups = groups && (t.arms.exact(s) != nil || groupWord(s))
			times = times && t.conditionShare(t.ls.read(s)) == 1
		}
		if groups || times {
			return true
		}
	}
	return false
}

// parted gives the two dimensions.
func (t *table) parted(d *dim, parts map[string][2]string) []*dim {
	var out []*dim
	for i := range 2 {
		half := &dim{byRow: d.byRow, level: d.level, section: d.section, labels: make([]*label, len(d.labels)), all: make([]*label, len(d.all))}
		made := map[*label]*label{}
		part := func(l *label) *label {
			if l == nil {
				return nil
			}
			p, ok := parts[l.clean]
			if !ok {
				return l
			}
			if made[l] == nil {
				own := *l
				own.clean = p[i]
				own.outcome, own.kind = t.ls.cat.FindOutcome(p[i]), t.ls.cat.Label(p[i])
				made[l] = &own
			}
			return made[l]
		}
		for k := range d.labels {
			half.labels[k] = part(d.labels[k])
		}
		for k := range d.all {
			half.all[k] = part(d.all[k])
		}
		half.tell()
		out = append(out, half)
	}
	return out
}
