// Package witness is the second reader of a PDF.
package witness

// A Page is what the witness read on one page.
type Page struct {
	Number int
	Digits map[string]int
}
