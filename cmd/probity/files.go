package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"probity/claims/assemble"
	"probity/extract"
)

// paperEndings are the files of a folder that are taken for papers. A file
// named on the command line is judged by its bytes instead.
var paperEndings = []string{".xml", ".nxml", ".html", ".htm", ".txt", ".md", ".pdf", ".docx", ".odt"}

// correctionsEnding marks what a person wrote beside a paper.
const correctionsEnding = ".corrections.csv"

// largestPaper is the most that is read of one file: the largest papers with
// figures are some 100 MB; more is a mistake in the path.
const largestPaper = 512 << 20

// standardInput is how a person asks for it: for audit and read it is a paper,
// for add a list of paths.
const standardInput = "-"

func isPaperName(name string) bool {
	name = strings.ToLower(name)
	if strings.HasSuffix(name, correctionsEnding) {
		return false
	}
	return slices.Contains(paperEndings, filepath.Ext(strings.TrimSuffix(name, ".gz")))
}

// find lists the papers of the paths given, files as named and folders
// searched in a stable order. Only files whose names are wanted are taken from
// a folder.
func find(paths []string, wanted func(name string) bool) (files []string, problems []error) {
	piped := false
	for _, path := range paths {
		if path == standardInput {
			if piped {
				problems = append(problems, errors.New("-: standard input holds one paper; give - once"))
				continue
			}
			piped = true
			files = append(files, path)
			continue
		}
		info, err := os.Stat(path)
		if err != nil {
			problems = append(problems, fmt.Errorf("%s: cannot be read (%v); check the path", path, reason(err)))
			files = append(files, path) // it keeps its line in the output
			continue
		}
		if !info.IsDir() {
			files = append(files, path)
			continue
		}
		s := search{wanted: wanted, seen: map[string]bool{}}
		s.all(path)
		if len(s.files) == 0 {
			s.problems = append(s.problems, fmt.Errorf("%s: no papers in this folder; papers end in %s (or these with .gz)", path, strings.Join(paperEndings, " ")))
		}
		files, problems = append(files, s.files...), append(problems, s.problems...)
	}
	return files, problems
}

// A search goes through one folder. Links to files are files; links to folders
// are followed after the folders themselves, each folder once, so that a loop
// ends and a paper has the name of its own folder.
type search struct {
	wanted   func(name string) bool
	seen     map[string]bool // folders, by the path without links
	links    []string        // to folders, yet to be followed
	files    []string
	problems []error
}

func (s *search) all(root string) {
	s.folder(root)
	for len(s.links) > 0 {
		link := s.links[0]
		s.links = s.links[1:]
		if above, err := holds(link); err != nil {
			s.problem(link, "cannot be read (%v)", reason(err))
		} else if above && !s.known(link) {
			s.problem(link, "is a link to a folder that holds it, which is not followed")
		} else {
			s.folder(link)
		}
	}
}

func (s *search) problem(path, what string, args ...any) {
	s.problems = append(s.problems, fmt.Errorf("%s: %s", path, fmt.Sprintf(what, args...)))
}

func (s *search) known(path string) bool {
	real, err := realPath(path)
	return err == nil && s.seen[real]
}

func (s *search) folder(path string) {
	if s.known(path) {
		return
	}
	real, err := realPath(path)
	if err == nil {
		s.seen[real] = true
	}
	entries, err := os.ReadDir(path)
	if err != nil {
		s.problem(path, "cannot be read (%v)", reason(err))
	}
	for _, e := range entries {
		s.entry(filepath.Join(path, e.Name()), e)
	}
}

func (s *search) entry(path string, e fs.DirEntry) {
	switch {
	case e.IsDir():
		s.folder(path)
		return
	case e.Type()&fs.ModeSymlink == 0:
		if s.wanted(e.Name()) {
			s.files = append(s.files, path) // a pipe or device is refused where it is read
		}
		return
	}
	info, err := os.Stat(path)
	switch {
	case err != nil:
		if s.wanted(e.Name()) || filepath.Ext(e.Name()) == "" {
			to, _ := os.Readlink(path)
			s.problem(path, "is a link to %s, which cannot be read (%v)", to, reason(err))
		}
	case info.IsDir():
		s.links = append(s.links, path)
	case s.wanted(e.Name()):
		s.files = append(s.files, path)
	}
}

func realPath(path string) (string, error) {
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		return "", err
	}
	return filepath.Abs(real)
}

// holds reports whether a link leads to a folder above it.
func holds(link string) (bool, error) {
	to, err := realPath(link)
	if err != nil {
		return false, err
	}
	at, err := realPath(filepath.Dir(link))
	if err != nil {
		return false, err
	}
	rel, err := filepath.Rel(to, at)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator)), nil
}

// reason gives the cause of a file error without the path it repeats.
func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// What a person can do with what is no plain file.
const (
	elsePaper       = "keep what it gives in a file; audit and read take a paper from standard input as -"
	elseCorrections = "keep the corrections in a file"
)

// openFile opens a file. What is no plain file is refused before it is opened:
// a pipe that nobody writes to waits for ever, and a device may never end.
// Instead is what to do then.
func openFile(path, instead string) (*os.File, error) {
	info, err := os.Stat(path)
	if err == nil && !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s: is %s; %s", path, notPlain(info.Mode()), instead)
	}
	var f *os.File
	if err == nil {
		f, err = os.Open(path)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read (%w); check the path", path, reason(err))
	}
	return f, nil
}

func notPlain(m fs.FileMode) string {
	switch {
	case m.IsDir():
		return "a folder, not a file"
	case m&fs.ModeNamedPipe != 0:
		return "a pipe, not a file"
	case m&fs.ModeSocket != 0:
		return "a socket, not a file"
	}
	return "a device, not a file"
}

// readFile reads one input, "-" being standard input.
func (c *console) readFile(path string) ([]byte, error) {
	if path == standardInput {
		data, err := limited(path, c.stdin)
		if err == nil && listsPaths(data) {
			return nil, errors.New("-: standard input holds a list of paths and is to hold a paper; hand the paths over with xargs, or to probity add -")
		}
		return data, err
	}
	f, err := openFile(path, elsePaper)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return limited(path, f)
}

// limited reads what is not larger than a paper may be.
func limited(name string, r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, largestPaper+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be read (%v)", name, reason(err))
	case len(data) > largestPaper:
		return nil, fmt.Errorf("%s: larger than %d MB; give the paper alone", name, largestPaper>>20)
	}
	return data, nil
}

// listsPaths reports whether the first lines are all paths of files: what
// belongs to add, or to xargs.
func listsPaths(data []byte) bool {
	found := 0
	for line := range bytes.Lines(data[:min(len(data), 64<<10)]) {
		line = bytes.TrimSpace(line)
		if len(line) == 0 {
			continue
		}
		if info, err := os.Stat(string(line)); err != nil || info.IsDir() {
			return false
		}
		if found++; found == 10 {
			break
		}
	}
	return found > 0
}

// holdsPaper reports whether a stream begins as a paper does and no path.
func holdsPaper(in *bufio.Reader) bool {
	head, _ := in.Peek(5)
	for _, mark := range []string{"%PDF-", "PK\x03\x04", "\x1f\x8b", "<", "\xef\xbb\xbf<"} {
		if bytes.HasPrefix(head, []byte(mark)) {
			return true
		}
	}
	return false
}

// correctionsBeside gives the bytes of what a person wrote beside a paper, nil:
// nothing. What is there and cannot be read is an error: without it the paper
// would be read otherwise than the person wants.
func correctionsBeside(path string) ([]byte, error) {
	if path == standardInput {
		return nil, nil
	}
	name := path + correctionsEnding
	f, err := openFile(name, elseCorrections)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return limited(name, f)
}

// readCorrections reads the bytes of a corrections file, nil: there is none.
func readCorrections(name string, data []byte) ([]assemble.Correction, []*extract.Problem) {
	if data == nil {
		return nil, nil
	}
	fixes, problems, err := assemble.ReadCorrections(bytes.NewReader(data), name)
	if err != nil {
		problems = append(problems, &extract.Problem{Place: extract.Place{File: name}, What: err.Error(), Try: "keep the header line place,field,was,now,why"})
	}
	return fixes, problems
}
