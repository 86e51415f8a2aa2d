package formula_test

import (
	"fmt"
	"testing"

	"probity/extract"
	"probity/extract/internal/formula"
	"probity/extract/internal/xmltree"
)

func TestMathML(t *testing.T) {
	for xml, want := range map[string]string{
		`<mn>12.3</mn><mo>±</mo><mn>1.1</mn>`:                                           "12.3 ± 1.1",
		`<msup><mn>10</mn><mrow><mo>−</mo><mn>3</mn></mrow></msup>`:                     "10⁻³",
		`<msubsup><mi>x</mi><mn>1</mn><mn>2</mn></msubsup>`:                             "x₁²",
		`<mover><mi>x</mi><mo>¯</mo></mover>`:                                           "x̄",
		`<mfrac><mi>a</mi><mi>b</mi></mfrac>`:                                           "a/b",
		`<mfenced open="[" close="]"><mn>1</mn><mn>2</mn></mfenced>`:                    "[1,2]",
		`<msqrt><mi>n</mi></msqrt>`:                                                     "√(n)",
		`<semantics><mn>1</mn><annotation>2</annotation></semantics>`:                   "1",
		`<mtext>mean </mtext><mo>=</mo><mn>1</mn><mo>&#x2062;</mo><mtext> N cm</mtext>`: "mean = 1 N cm",
	} {
		top, err := xmltree.Parse([]byte("<math>" + xml + "</math>"))
		if err != nil {
			t.Fatal(err)
		}
		if got := extract.Flatten(formula.MathML(top)); got != want {
			t.Errorf("MathML(%s) = %q, want %q", xml, got, want)
		}
	}
}

func TestTeX(t *testing.T) {
	for tex, want := range map[string]string{
		`12.3 \pm 1.1`:           "12.3 ± 1.1",
		`10^{-3}`:                "10⁻³",
		`10^2`:                   "10²",
		`x_{1}`:                  "x₁",
		`\frac{a-b}{b}`:          "(a−b)/b",
		`\frac{a}{b}`:            "a/b",
		`p\le 0.05`:              "p ≤ 0.05",
		`\text{mean time} = 5`:   "mean time = 5",
		`5\,\mu\mathrm{m}`:       "5 μm",
		`\unknown{x} 5\%`:        "x5%",
		`\sqrt{n`:                "√(n)",
		`{{{{`:                   "",
		`\bar{x} \cdot \hat{y}}`: "x\u0304·y\u0302",
	} {
		if got := extract.Flatten(formula.TeX(tex)); got != want {
			t.Errorf("TeX(%s) = %q, want %q", tex, got, want)
		}
	}
}

func FuzzTeX(f *testing.F) {
	f.Add(`\frac{\frac{^{_{\sqrt`)
	f.Fuzz(func(t *testing.T, s string) { formula.TeX(s) })
}

func ExampleTeX() {
	fmt.Println(extract.Flatten(formula.TeX(`$12.3 \pm 1.1\,\mathrm{N\,cm}$`)))
	// Output: 12.3 ± 1.1 N cm
}
