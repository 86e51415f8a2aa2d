// Package typed reads a claim that a person types with the figures of its two
// sides, instead of a paper.
//
//	"650 SD 80 n 12"                 → Side: a Measure, and what it was made from
//	sentence, subject, reference     → Claim: a Study ready to be judged
//
// It says what it understood and from which words, what it took for granted
// and what it could not use. Whatever is neither used nor harmless is asked
// about, and the claim is then not judged: a verdict on half of what was typed
// would be untrue. It computes nothing but the factor between two units of the
// catalogue.
package typed
