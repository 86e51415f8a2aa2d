// Package statement reads what sentences claim: which comparisons a paper
// states in words, whose they are, which figures stand beside them, and which
// measures of the study they speak of.
//
//	Document, Study → Read → []Statement + the Measures printed in prose
//	a claim typed by hand → ReadText → []Statement
//
// It judges nothing. The way of a sentence:
//
//	text → lex.go (tokens, phrases) → split.go (sentences)
//	     → quantity.go, number.go, spread.go (what each number is for)
//	     → claim.go, fold.go, share.go (percent and fold claims)
//	     → pair.go, assign.go, lists.go, special.go (their two figures)
//	     → stated.go, signif.go, compare.go, rank.go, stat.go (all the others)
//	     → names.go, sides.go (who against whom), outcome.go, time.go
//	     → tie.go, measures.go (pairs of measures), own.go (whose)
//
// The words it knows are rows of catalog/phrases.csv; each row has one of the
// kinds of lexicon.go. Every reading keeps the words it rested on
// (Statement.Rests), and where a tie could be another, Pair.Sure is false.
//
// BUG: a claim whose figures stand more than one sentence before it is not
// tied to them. Sums over several arms ("all heat-treated instruments") are
// listed as pairs of single arms. A quantity that is the inverse of the one
// printed is only known for time and bending.
package statement
