package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// Three shapes of invented papers in which the order of a set could reach the
// output: two wires with figures and a third that is only named; abbreviations
// of abbreviations; changes that add up in one way and not in another.
var orderPapers = map[string]string{
	"third": `# Forces of three invented wires

## Materials and methods

Thirty-six wires were divided into three groups: Group 1, Orlin (n = 12); Group 2, Brex (n = 12); Group 3, Tovan (n = 12).

## Results

The force of Tovan was %d%% higher. Tovan was significantly stronger (p < 0.05).

Table 1. Mean force (N), mean ± SD

| Wire | Force (N) |
| --- | --- |
| Orlin | 12.%d ± 1.1 |
| Brex | 15.3 ± 1.2 |
`,
	"aliases": `# Forces of two invented wires

## Results

The force of OWG was %d%% lower than that of BXG. MXG was significantly stiffer than BXA (p < 0.05).

Table 1. Mean force (N), mean ± SD

| Wire | Force (N) |
| --- | --- |
| Orlin | 12.%d ± 1.1 |
| Brex | 15.3 ± 1.2 |
| Moxen | 14.9 ± 1.2 |

OW = Orlin; OWG = OW group; BX = Brex; BXG = BX group; BXA = BXG; MX = Moxen; MXG = MX group.
`,
	"changes": `# Lengths of four invented wires

## Results

The length of Kelm grew by %d%% more than that of Orlin.

Table 1. Mean change of length (mm) by wire and period

| Wire | T1–T2 | T2–T3 | T1–T3 | T3–T4 | T1–T4 | T2–T4 |
| --- | --- | --- | --- | --- | --- | --- |
| Orlin | 1.20 ± 0.1%d | 0.90 ± 0.11 | 2.10 ± 0.12 | 0.50 ± 0.10 | 2.60 ± 0.20 | 1.40 ± 0.20 |
| Brex | 1.10 ± 0.10 | 0.80 ± 0.11 | 1.90 ± 0.12 | 0.50 ± 0.10 | 2.40 ± 0.20 | 1.30 ± 0.20 |
| Tovan | 1.00 ± 0.13 | 0.70 ± 0.11 | 1.70 ± 0.12 | 0.50 ± 0.10 | 2.20 ± 0.20 | 1.20 ± 0.20 |
| Kelm | 1.05 ± 0.14 | 0.75 ± 0.11 | 1.90 ± 0.13 | 0.55 ± 0.10 | 2.80 ± 0.21 | 1.60 ± 0.20 |
`,
}

// The same papers give the same bytes, however often and on however many cores.
func TestSameInputSameBytes(t *testing.T) {
	dir := t.TempDir()
	for shape, text := range orderPapers {
		for i := range 10 {
			name := filepath.Join(dir, fmt.Sprintf("%s-%d.md", shape, i))
			if err := os.WriteFile(name, fmt.Appendf(nil, text, 20+i, i), 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	seen := map[[sha256.Size]byte]int{}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for i := range 40 {
		runtime.GOMAXPROCS(1 + i%2)
		var out, errs bytes.Buffer
		if code := run([]string{"audit", "--format", "json", dir}, strings.NewReader(""), &out, &errs); code == exitUnusable {
			t.Fatalf("audit: %s", errs.String())
		}
		if n := bytes.Count(out.Bytes(), []byte("\n")); n != 30 {
			t.Fatalf("%d lines for 30 papers", n)
		}
		seen[sha256.Sum256(out.Bytes())]++
	}
	if len(seen) != 1 {
		t.Errorf("40 audits of the same 30 papers gave %d different outputs", len(seen))
	}
}
