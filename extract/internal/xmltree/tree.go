// Package xmltree reads XML into a small tree, leniently, because papers come
// with undeclared prefixes, HTML entities, stray control characters and
// unclosed elements; and within limits, because they come from anywhere.
//
//	bytes in any usual encoding → *Node, or an error that says what stopped it
//
// Declared entities are never expanded: a document that uses its own is
// refused.
package xmltree

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Limits against documents made to exhaust memory. A long article has some
// twenty thousand elements and is some twelve deep.
const (
	MaxDepth = 256
	MaxNodes = 3_000_000
	MaxBytes = 256 << 20

	maxDeclared = 1000
)

// A Node is an element, or a stretch of text when Name is empty.
type Node struct {
	Name  string // local name; prefixes are dropped
	Space string // the prefix as written
	Attrs []xml.Attr
	Kids  []*Node
	Text  string // of a text node; white space as written
}

// Parse reads one document. Where the XML breaks off the tree up to there is
// returned together with an error that names the line.
func Parse(data []byte) (*Node, error) {
	top, _, err := parse(data)
	return top, err
}

// ParseWritten reads a document that a program wrote, in which elements close
// in order and no byte is zero. Where one does not the tree goes on to the
// end, but comes with an error that names the place.
func ParseWritten(data []byte) (*Node, error) {
	top, flaw, err := parse(data)
	if err == nil && flaw != "" {
		err = torn{errors.New(flaw)}
	}
	if err == nil && Encoding(data) == "utf-8" && bytes.IndexByte(data, 0) >= 0 {
		err = torn{errors.New("the XML holds a stretch of zeroes")}
	}
	return top, err
}

// torn marks errors after which the document goes on.
type torn struct{ error }

// Torn reports whether an error of ParseWritten means that the document is
// damaged at one place, rather than that it breaks off.
func Torn(err error) bool {
	var t torn
	return errors.As(err, &t)
}

// parse gives the tree, where first an element does not close in order, and
// what stopped it.
func parse(data []byte) (top *Node, flaw string, err error) {
	if len(data) > MaxBytes {
		return nil, "", refuse("the XML is larger than %d MB", MaxBytes>>20)
	}
	data, err = clean(data)
	if err != nil {
		return nil, "", err
	}
	d := xml.NewDecoder(bytes.NewReader(data))
	d.Strict = false
	d.CharsetReader = func(_ string, r io.Reader) (io.Reader, error) { return r, nil }
	p := &parser{top: &Node{}}
	p.stack = []*Node{p.top}
	for {
		tok, err := d.RawToken()
		if err == io.EOF {
			return p.top, flaw, p.unclosed()
		}
		if err == nil {
			err = p.add(tok)
		}
		if err != nil {
			return p.top, flaw, broken(err)
		}
		if p.crossed && flaw == "" {
			line, at := d.InputPos()
			flaw = fmt.Sprintf("the XML's elements do not close in order at line %d, character %d", line, at)
		}
	}
}

func broken(err error) error {
	var syntax *xml.SyntaxError
	if errors.As(err, &syntax) {
		return fmt.Errorf("the XML breaks off at line %d: %s", syntax.Line, syntax.Msg)
	}
	return err
}

// parser builds the tree. Text nodes are cut from one another only by
// elements, and nodes are handed out from blocks to spare the collector.
type parser struct {
	top      *Node
	stack    []*Node
	block    []Node
	nodes    int
	declared []string // entities that the document declares
	crossed  bool     // an element did not close in order
}

func (p *parser) node() (*Node, error) {
	if p.nodes++; p.nodes > MaxNodes {
		return nil, refuse("the XML has more than %d elements", MaxNodes)
	}
	if len(p.block) == 0 {
		p.block = make([]Node, 256)
	}
	n := &p.block[0]
	p.block = p.block[1:]
	return n, nil
}

func (p *parser) add(tok xml.Token) error {
	switch tok := tok.(type) {
	case xml.StartElement:
		return p.open(tok)
	case xml.EndElement:
		p.close(tok.Name)
	case xml.CharData:
		return p.text(string(tok))
	case xml.Directive:
		if p.declared = append(p.declared, entities(string(tok))...); len(p.declared) > maxDeclared {
			return refuse("the XML declares more than %d entities of its own", maxDeclared)
		}
	}
	return nil
}

func (p *parser) open(tok xml.StartElement) error {
	if len(p.stack) > MaxDepth {
		return refuse("the XML is nested deeper than %d elements", MaxDepth)
	}
	n, err := p.node()
	if err != nil {
		return err
	}
	n.Name, n.Space, n.Attrs = tok.Name.Local, tok.Name.Space, tok.Attr
	above := p.stack[len(p.stack)-1]
	above.Kids = append(above.Kids, n)
	p.stack = append(p.stack, n)
	return nil
}

// close ends the nearest open element of that name; an end without a start is
// passed over.
func (p *parser) close(name xml.Name) {
	for i := len(p.stack) - 1; i > 0; i-- {
		if p.stack[i].Name == name.Local {
			p.crossed = p.crossed || i < len(p.stack)-1
			p.stack = p.stack[:i]
			return
		}
	}
	p.crossed = true
}

func (p *parser) unclosed() error {
	if n := len(p.stack); n > 1 {
		return fmt.Errorf("the XML ends inside <%s>", p.stack[n-1].Name)
	}
	return nil
}

func (p *parser) text(s string) error {
	if strings.Contains(s, "&") {
		if name := p.own(s); name != "" {
			return refuse("the XML declares its own entity &%s; and uses it", name)
		}
		s = Entities(s)
	}
	n, err := p.node()
	if err != nil {
		return err
	}
	n.Text = s
	above := p.stack[len(p.stack)-1]
	above.Kids = append(above.Kids, n)
	return nil
}

// own finds a reference to an entity that the document itself declares.
func (p *parser) own(s string) string {
	if len(p.declared) == 0 {
		return ""
	}
	for {
		_, rest, ok := strings.Cut(s, "&")
		if !ok {
			return ""
		}
		if name, _, ok := strings.Cut(rest[:min(len(rest), 100)], ";"); ok && slices.Contains(p.declared, name) {
			return name
		}
		s = rest
	}
}

// entities lists the names of the general entities declared in a DOCTYPE.
func entities(directive string) []string {
	var names []string
	for {
		_, rest, ok := strings.Cut(directive, "<!ENTITY")
		if !ok {
			return names
		}
		if f := strings.Fields(rest[:min(len(rest), 300)]); len(f) > 0 && f[0] != "%" {
			names = append(names, f[0])
		}
		directive = rest
	}
}

// refusal marks errors after which nothing of the document is to be used.
type refusal struct{ error }

// Refused reports whether an error of Parse means that the document is not to
// be used at all, rather than that it breaks off.
func Refused(err error) bool {
	var r refusal
	return errors.As(err, &r)
}

func refuse(format string, args ...any) error {
	return refusal{fmt.Errorf(format, args...)}
}
