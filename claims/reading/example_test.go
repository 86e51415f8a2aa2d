package reading_test

import (
	"fmt"

	"probity/claims/reading"
)

// What is the 40 of "40 mg more"? Its unit speaks for a dose, the word behind
// it for a change.
func ExampleBallot() {
	var b reading.Ballot[string]
	b.For("dose", 5, "before a unit of what is given")
	b.For("change", 4, "before a word of more or less")
	b.For("change", 2, "behind a verb of change")

	c := b.Choose()
	fmt.Printf("%s by %g, sure: %v\n", c.Best.Value, c.Gap(), c.Sure())
	for _, r := range c.Best.Reasons {
		fmt.Println(" because it stands", r.Text)
	}
	fmt.Println("or", c.Second.Value)
	// Output:
	// change by 1, sure: false
	//  because it stands before a word of more or less
	//  because it stands behind a verb of change
	// or dose
}

func ExampleDoubt() {
	var d reading.Doubt
	d.Add("the figures stand one sentence before", 1)
	d.Add("another arm is named nearer", 2)
	fmt.Println(d)
	// Output: another arm is named nearer; the figures stand one sentence before
}
