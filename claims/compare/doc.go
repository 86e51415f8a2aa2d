// Package compare puts comparisons of several papers side by side, says which
// of them may be read together and why, and combines those that may.
//
//	Study, Judgements, Findings → Of → Paper (kept in the library as JSON)
//	[]Paper + Query → Table → Result{Strata, Apart, Combined}
//	Statement + []Paper → Weigh → what each paper shows of it
//
// Raw values of different papers are never compared, only ratios within one
// paper: rigs differ by far more than instruments. Which ratios may stand
// together is said by the catalogue's rules of comparability.
package compare
