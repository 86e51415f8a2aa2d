package pdf_test

import (
	"fmt"
	"os"

	"probity/extract/pdf"
)

func Example() {
	data, err := os.ReadFile("../../testdata/papers/pdf-invented/latex.pdf")
	if err != nil {
		fmt.Println(err)
		return
	}
	doc, err := pdf.Read(data, "latex.pdf", pdf.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	cell := doc.Tables()[1].Rows[1][2]
	fmt.Printf("%s: %s\n", cell.Place, cell.Text())
	// Output: latex.pdf page=2 table=2 row=2 col=3: 1.84 (0.20)
}
