package check

import "strings"

// foldWord brings a name to one form for comparing: lower case, single
// spaces.
func foldWord(s string) string { return strings.Join(strings.Fields(strings.ToLower(s)), " ") }
