package effect

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

func (r row) wantBool(t *testing.T, got bool, err error) {
	t.Helper()
	if err != nil || strconv.FormatBool(got) != r["expected"] {
		t.Errorf("%s = %v, %v, want %s (%s)", r["id"], got, err, r["expected"], r["note"])
	}
}

func (r row) int(t *testing.T, column string) int {
	t.Helper()
	n, err := strconv.Atoi(r[column])
	if err != nil {
		t.Fatalf("%s: column %s: %v", r["id"], column, err)
	}
	return n
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

// wantList compares figures with a cell "1;2;3".
func (r row) wantList(t *testing.T, got []float64, err error) {
	t.Helper()
	want := r.list(t, "expected")
	if err != nil || len(got) != len(want) {
		t.Errorf("%s = %v, %v, want %v", r["id"], got, err, want)
		return
	}
	for i := range want {
		one := row{"id": r["id"], "tolerance": r["tolerance"], "tol_kind": r["tol_kind"], "source": r["source"]}
		one["expected"] = strconv.FormatFloat(want[i], 'g', -1, 64)
		one.want(t, got[i], nil)
	}
}

// arms returns the two arms of a row.
func (r row) arms(t *testing.T) (a, b Arm) {
	t.Helper()
	return Arm{Mean: r.float(t, "m1"), SD: r.float(t, "sd1"), N: r.int(t, "n1")},
		Arm{Mean: r.float(t, "m2"), SD: r.float(t, "sd2"), N: r.int(t, "n2")}
}

// groups returns the groups of a row.
func (r row) groups(t *testing.T) []Arm {
	t.Helper()
	m, sd, n := r.list(t, "m"), r.list(t, "sd"), r.list(t, "n")
	groups := make([]Arm, len(m))
	for i := range m {
		groups[i] = Arm{Mean: m[i], SD: sd[i], N: int(n[i])}
	}
	return groups
}
