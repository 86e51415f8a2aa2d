package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

// TestReadme runs every "$ probity ..." of the README that is followed by its
// output, and compares the two.
func TestReadme(t *testing.T) {
	t.Setenv("COLUMNS", "80")
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	ran := 0
	for _, block := range codeBlocks(string(readme)) {
		command, wanted, ok := strings.Cut(block, "\n")
		args, isCommand := strings.CutPrefix(command, "$ probity ")
		if !ok || !isCommand || strings.TrimSpace(wanted) == "" {
			continue
		}
		ran++
		var stdout, stderr bytes.Buffer
		run(splitArgs(args), strings.NewReader(""), &stdout, &stderr)
		got, want := trimLines(stdout.String()), trimLines(wanted)
		if head, cut := strings.CutSuffix(want, "\n..."); cut {
			got, want = firstLines(got, strings.Count(head, "\n")+1), head
		}
		if got != want {
			t.Errorf("%s\nprints:\n%s\nREADME says:\n%s\n%s", command, got, want, stderr.String())
		}
	}
	if ran == 0 {
		t.Error("no command of the README was run")
	}
}

// codeBlocks gives the indented blocks of a Markdown text.
func codeBlocks(text string) []string {
	var out []string
	var block []string
	flush := func() {
		if len(block) > 0 {
			out = append(out, strings.TrimRight(strings.Join(block, "\n"), "\n"))
		}
		block = nil
	}
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		switch rest, indented := strings.CutPrefix(line, "    "); {
		case indented:
			block = append(block, rest)
		case line == "" && len(block) > 0:
			block = append(block, "")
		default:
			flush()
		}
	}
	flush()
	return out
}

// splitArgs parts a command line at spaces outside double quotes.
func splitArgs(s string) []string {
	var out []string
	var b strings.Builder
	quoted, any := false, false
	for _, r := range s {
		switch {
		case r == '"':
			quoted, any = !quoted, true
		case r == ' ' && !quoted:
			if any || b.Len() > 0 {
				out = append(out, b.String())
			}
			b.Reset()
			any = false
		default:
			b.WriteRune(r)
		}
	}
	if any || b.Len() > 0 {
		out = append(out, b.String())
	}
	return out
}

func trimLines(s string) string {
	lines := strings.Split(strings.TrimSpace(s), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

func firstLines(s string, n int) string {
	lines := strings.Split(s, "\n")
	return strings.Join(lines[:min(n, len(lines))], "\n")
}
