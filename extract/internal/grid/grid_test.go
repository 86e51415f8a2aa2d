package grid_test

import (
	"fmt"
	"strings"
	"testing"

	"probity/extract"
	"probity/extract/internal/grid"
)

func cell(s string) extract.Cell { return extract.Cell{Runs: []extract.Run{{Text: s}}} }

// Two merged cells that claim one place are read, with a doubt.
func TestOverlap(t *testing.T) {
	wide := cell("b")
	wide.Cols = 2
	tall := cell("a")
	tall.Rows = 2
	var got extract.Table
	grid.Fill(&got, []grid.Row{
		{Cells: []extract.Cell{cell("x"), tall}},
		{Cells: []extract.Cell{wide}},
	})
	if got.Doubt == "" {
		t.Error("overlapping merged cells are read without doubt")
	}
}

// A heading that reaches below the header goes on into a body whose first row
// leaves its column out, and stops where that row is whole.
func TestReaching(t *testing.T) {
	tall, wide := cell("Outcome"), cell("Baseline")
	tall.Rows, wide.Cols = 2, 2
	head := grid.Row{Cells: []extract.Cell{tall, wide}, Head: true}
	for _, c := range []struct {
		row  []extract.Cell
		want string
	}{
		{[]extract.Cell{cell("Orlin"), cell("Brex")}, "Outcome Orlin Brex"},
		{[]extract.Cell{cell("TTF"), cell("12.3"), cell("11.0")}, "TTF 12.3 11.0"},
	} {
		var got extract.Table
		grid.Fill(&got, []grid.Row{head, {Cells: c.row, Group: 1}, {Cells: []extract.Cell{cell("NCF"), cell("702"), cell("588")}, Group: 1}})
		var names []string
		for _, cell := range got.Rows[1] {
			names = append(names, cell.Text())
		}
		if s := strings.Join(names, " "); s != c.want {
			t.Errorf("the first row of the body is %q, want %q", s, c.want)
		}
	}
}

func TestFigure(t *testing.T) {
	for s, want := range map[string]bool{
		"12.3 ± 1.1": true, "< .001": true, "p < .05": true, "(0.5)": true, "−3": true, "12.3ᵃ": true, "12.3 ab": true, "83.4°": true, "12 (40%)": true,
		"": false, "24 h": false, "95% CI": false, "Group 2": false, "n = 10": false, "2019": false, "25 °C": false, "–": false, "SD": false,
	} {
		if got := grid.Figure(s); got != want {
			t.Errorf("Figure(%q) = %v, want %v", s, got, want)
		}
	}
}

// Indentation becomes levels, whatever its unit.
func TestIndent(t *testing.T) {
	deep := cell("Corvo")
	deep.Indent = 7
	var got extract.Table
	grid.Fill(&got, []grid.Row{
		{Cells: []extract.Cell{cell("File"), cell("s")}, Head: true},
		{Cells: []extract.Cell{cell("Heat-treated"), cell("")}},
		{Cells: []extract.Cell{cell("\u00a0\u00a0Vexil"), cell("12.3")}},
		{Cells: []extract.Cell{deep, cell("11.0")}},
	})
	for i, want := range []int{0, 0, 1, 2} {
		if level := got.Rows[i][0].Indent; level != want {
			t.Errorf("row %d: indent %d, want %d", i, level, want)
		}
	}
}

func TestSpan(t *testing.T) {
	for s, want := range map[string]int{"": 1, "0": 1, "3": 3, "2x": 2, "-1": 1, "99999999999999999999": grid.Most} {
		if got := grid.Span(s); got != want {
			t.Errorf("Span(%q) = %d, want %d", s, got, want)
		}
	}
}

func ExampleFill() {
	group := cell("Vexil")
	group.Rows = 2
	var t extract.Table
	grid.Fill(&t, []grid.Row{
		{Cells: []extract.Cell{cell("File"), cell("Mean")}},
		{Cells: []extract.Cell{group, cell("12.3")}},
		{Cells: []extract.Cell{cell("13.0")}},
	})
	for i, row := range t.Rows {
		fmt.Println(i < t.Head, row[0].Text(), row[0].Copy, row[1].Text())
	}
	// Output:
	// true File false Mean
	// false Vexil false 12.3
	// false Vexil true 13.0
}
