// Package published reads tables of wanted values, printed elsewhere or worked
// out by another program, for the tests of the formulas. Only tests use it.
package published

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// A Row is one line of a table under testdata/published, by column name.
type Row map[string]string

// Read reads a table of wanted values of testdata/published, from a package two
// folders below the root.
func Read(t *testing.T, name string) []Row {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := make([]Row, 0, len(lines)-1)
	for _, line := range lines[1:] {
		r := Row{}
		for i, cell := range line {
			r[lines[0][i]] = cell
		}
		rows = append(rows, r)
	}
	return rows
}

// Float returns the number of a cell.
func (r Row) Float(t *testing.T, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("%s: column %s: %v", r["id"], column, err)
	}
	return v
}

// Want compares one computed figure, or the error in its place, with a row.
func (r Row) Want(t *testing.T, got float64, err error) {
	t.Helper()
	if r["expected"] == "undefined" {
		if err == nil {
			t.Errorf("%s = %v, want an error (%s)", r["id"], got, r["note"])
		}
		return
	}
	if err != nil {
		t.Errorf("%s: %v, want %s", r["id"], err, r["expected"])
		return
	}
	want, within := r.Float(t, "expected"), r.Float(t, "tolerance")
	if r["tol_kind"] == "rel" {
		within *= math.Abs(want)
	}
	if got != want && !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %v, want %v within %v (%s)", r["id"], got, want, within, r["source"])
	}
}

// WantBool compares a verdict with a row.
func (r Row) WantBool(t *testing.T, got bool, err error) {
	t.Helper()
	if err != nil || strconv.FormatBool(got) != r["expected"] {
		t.Errorf("%s = %v, %v, want %s (%s)", r["id"], got, err, r["expected"], r["note"])
	}
}

// Int returns the whole number of a cell.
func (r Row) Int(t *testing.T, column string) int {
	t.Helper()
	n, err := strconv.Atoi(r[column])
	if err != nil {
		t.Fatalf("%s: column %s: %v", r["id"], column, err)
	}
	return n
}

// List returns the numbers of a cell "1;2;3".
func (r Row) List(t *testing.T, column string) []float64 {
	t.Helper()
	var list []float64
	for _, s := range strings.Split(r[column], ";") {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatalf("%s: column %s: %v", r["id"], column, err)
		}
		list = append(list, v)
	}
	return list
}

// WantList compares figures with a cell "1;2;3".
func (r Row) WantList(t *testing.T, got []float64, err error) {
	t.Helper()
	want := r.List(t, "expected")
	if err != nil || len(got) != len(want) {
		t.Errorf("%s = %v, %v, want %v", r["id"], got, err, want)
		return
	}
	for i := range want {
		one := Row{"id": r["id"], "tolerance": r["tolerance"], "tol_kind": r["tol_kind"], "source": r["source"]}
		one["expected"] = strconv.FormatFloat(want[i], 'g', -1, 64)
		one.Want(t, got[i], nil)
	}
}
