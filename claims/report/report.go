// Package report turns judgements and findings into what a person or a
// program reads.
//
//	Study, []Judgement, []Finding → Report (words, digits, order) → text, …
//	Study, []Judgement, []Finding → the audit format, a line a paper
//
// Words, digits and order are decided once, in Of; writers only lay them out.
package report
