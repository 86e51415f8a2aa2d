package pool

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// A row is one line of a table under testdata/published, by column name.
type row map[string]string

// published reads a table of wanted values.
func published(t *testing.T, name string) []row {
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
	rows := make([]row, 0, len(lines)-1)
	for _, line := range lines[1:] {
		r := row{}
		for i, cell := range line {
			r[lines[0][i]] = cell
		}
		rows = append(rows, r)
	}
	return rows
}

func (r row) float(t *testing.T, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("%s: column %s: %v", r["id"], column, err)
	}
	return v
}

// want compares one computed figure, or the error in its place, with a row.
func (r row) want(t *testing.T, got float64, err error) {
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
	want, within := r.float(t, "expected"), r.float(t, "tolerance")
	if r["tol_kind"] == "rel" {
		within *= math.Abs(want)
	}
	if got != want && !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %v, want %v within %v (%s)", r["id"], got, want, within, r["source"])
	}
}

// list returns the numbers of a cell "1;2;3".
func (r row) list(t *testing.T, column string) []float64 {
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
