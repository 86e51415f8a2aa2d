package main

import (
	"archive/tar"
	"archive/zip"
	"bufio"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"sync"
)

// What an archive may unfold to. A bomb is small and unfolds without end; a
// shelf of papers does not.
const (
	largestArchive  = 16 << 30 // bytes unfolded
	mostMembers     = 200_000
	steepestSqueeze = 300      // unfolded to packed, for members above squeezeFrom
	squeezeFrom     = 64 << 20 // bytes unfolded
)

// A source is one file that may be a paper, from a folder or an archive.
type source struct {
	name string
	read func() ([]byte, error)
	fix  func() ([]byte, error) // the corrections beside it; nil bytes: none
	err  error                  // it cannot be used
}

// sources turns what stands on the command line into papers, one after the
// other; archives are opened on the way and closed by done. Total is 0 where
// it is not known beforehand.
type sources struct {
	c     *console
	files []string
	total int
	bad   []error

	mu     sync.Mutex // papers may be read from open archives when done closes them
	open   []io.Closer
	closed bool
}

// sourcesOf expands folders and, for "-", the list of paths on standard input.
func (c *console) sourcesOf(paths []string) (*sources, error) {
	s := &sources{c: c}
	var all []string
	for _, p := range paths {
		if p != standardInput {
			all = append(all, p)
			continue
		}
		listed, err := c.listed()
		if err != nil {
			return nil, err
		}
		all = append(all, listed...)
	}
	s.files, s.bad = find(all, func(name string) bool { return isPaperName(name) || isArchive(name) })
	s.total = len(s.files)
	for _, f := range s.files {
		if isArchive(f) {
			s.total = 0
		}
	}
	return s, nil
}

// listed reads the list of paths on standard input, one a line.
func (c *console) listed() ([]string, error) {
	in := bufio.NewReader(c.stdin)
	if holdsPaper(in) {
		return nil, errors.New("-: standard input holds a paper and is to hold a list of paths; keep the paper in a file and give its path")
	}
	var out []string
	lines := bufio.NewScanner(in)
	lines.Buffer(nil, 1<<20)
	for lines.Scan() {
		switch line := strings.TrimRight(lines.Text(), "\r"); {
		case strings.TrimSpace(line) == "":
		case line == standardInput:
			return nil, errors.New("-: the list of paths on standard input names standard input")
		default:
			out = append(out, line)
		}
	}
	if err := lines.Err(); err != nil {
		return nil, fmt.Errorf("the list of paths on standard input cannot be read: %w", err)
	}
	return out, nil
}

// isArchive goes by the ending: DOCX and ODT are ZIP files too.
func isArchive(name string) bool {
	name = strings.ToLower(name)
	for _, e := range []string{".zip", ".tar", ".tar.gz", ".tgz"} {
		if strings.HasSuffix(name, e) {
			return true
		}
	}
	return false
}

// each hands every source to f until f says stop.
func (s *sources) each(f func(source) bool) {
	for _, path := range s.files {
		var more bool
		switch low := strings.ToLower(path); {
		case strings.HasSuffix(low, ".zip"):
			more = s.zip(path, f)
		case isArchive(path):
			more = s.tar(path, f)
		default:
			more = f(source{name: path,
				read: func() ([]byte, error) { return s.c.readFile(path) },
				fix:  func() ([]byte, error) { return correctionsBeside(path) }})
		}
		if !more {
			return
		}
	}
}

func (s *sources) done() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.closed = true
	for _, c := range s.open {
		c.Close()
	}
}

// hold keeps an archive open until done, which may have been already.
func (s *sources) hold(c io.Closer) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		c.Close()
	}
	s.open = append(s.open, c)
}

func refused(name, why string, args ...any) source {
	return source{name: name, err: fmt.Errorf("%s: %s", name, fmt.Sprintf(why, args...))}
}

// zip hands on the papers of a ZIP archive. Members are read when their turn
// comes, side by side.
func (s *sources) zip(path string, f func(source) bool) bool {
	file, err := openFile(path, elsePaper)
	if err != nil {
		return f(source{name: path, err: err})
	}
	s.hold(file)
	info, err := file.Stat()
	if err != nil {
		return f(refused(path, "cannot be read (%v)", reason(err)))
	}
	z, err := zip.NewReader(file, info.Size())
	if err != nil {
		return f(refused(path, "the archive cannot be opened (%v)", err))
	}
	byName := map[string]*zip.File{}
	var total uint64
	for i, m := range z.File {
		if i >= mostMembers {
			return f(refused(path, "more than %d files in the archive; part it", mostMembers))
		}
		byName[m.Name] = m
		total += m.UncompressedSize64
	}
	if total > largestArchive {
		return f(refused(path, "the archive unfolds to more than %d GB; part it", largestArchive>>30))
	}
	found := false
	for _, m := range z.File {
		if m.FileInfo().IsDir() || !isPaperName(m.Name) || hidden(m.Name) {
			continue
		}
		found = true
		name := path + "/" + m.Name
		ok := f(source{name: name,
			read: func() ([]byte, error) { return readMember(name, m) },
			fix: func() ([]byte, error) {
				if c := byName[m.Name+correctionsEnding]; c != nil {
					return readMember(name+correctionsEnding, c)
				}
				return nil, nil
			}})
		if !ok {
			return false
		}
	}
	if !found {
		return f(refused(path, "no papers in this archive; papers end in %s (or these with .gz)", strings.Join(paperEndings, " ")))
	}
	return true
}

// hidden leaves out what systems put into archives beside the files.
func hidden(name string) bool {
	return strings.HasPrefix(name, "__MACOSX/") || strings.HasPrefix(filepath.Base(name), "._")
}

func readMember(name string, m *zip.File) ([]byte, error) {
	if m.UncompressedSize64 > squeezeFrom && m.UncompressedSize64/max(1, m.CompressedSize64) > steepestSqueeze {
		return nil, fmt.Errorf("%s: unfolds to %d times its size; no paper does", name, m.UncompressedSize64/max(1, m.CompressedSize64))
	}
	r, err := m.Open()
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read (%v)", name, err)
	}
	defer r.Close()
	return limited(name, r)
}

// tar hands on the papers of a tar archive in the order they stand. It can be
// read once only, from front to back, so corrections must stand before their
// paper.
func (s *sources) tar(path string, f func(source) bool) bool {
	file, err := openFile(path, elsePaper)
	if err != nil {
		return f(source{name: path, err: err})
	}
	defer file.Close()
	var r io.Reader = bufio.NewReaderSize(file, 1<<16)
	if !strings.HasSuffix(strings.ToLower(path), ".tar") {
		if r, err = gzip.NewReader(r); err != nil {
			return f(refused(path, "the archive cannot be opened (%v)", err))
		}
	}
	counted := &counter{r: r}
	t := tar.NewReader(counted)
	fixes := map[string][]byte{}
	found := false
	for n := 0; ; n++ {
		h, err := t.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		switch {
		case err != nil:
			return f(refused(path, "the archive breaks off (%v); what stood before was read", err))
		case n >= mostMembers:
			return f(refused(path, "more than %d files in the archive; part it", mostMembers))
		case counted.n > largestArchive:
			return f(refused(path, "the archive unfolds to more than %d GB; part it", largestArchive>>30))
		case h.Typeflag != tar.TypeReg || hidden(h.Name):
			continue
		}
		isFix := strings.HasSuffix(strings.ToLower(h.Name), correctionsEnding)
		if !isFix && !isPaperName(h.Name) {
			continue
		}
		name := path + "/" + h.Name
		data, err := limited(name, t)
		if isFix && err == nil {
			fixes[h.Name] = data
			continue
		}
		found = true
		fix := fixes[h.Name+correctionsEnding]
		if !f(source{name: name, read: func() ([]byte, error) { return data, err }, fix: func() ([]byte, error) { return fix, nil }}) {
			return false
		}
	}
	if !found {
		return f(refused(path, "no papers in this archive; papers end in %s (or these with .gz)", strings.Join(paperEndings, " ")))
	}
	return true
}

// counter bounds what a packed archive unfolds to.
type counter struct {
	r io.Reader
	n int64
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	if c.n += int64(n); c.n > largestArchive+largestPaper {
		return n, errors.New("it unfolds without end")
	}
	return n, err
}
