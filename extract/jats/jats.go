// Package jats reads journal articles in JATS XML (ANSI/NISO Z39.96) and in
// the NLM DTDs before it: archiving, publishing and authoring sets, with or
// without DOCTYPE and namespace prefixes, alone or inside a wrapper.
//
//	bytes → extract.Document: prose in reading order, tables as rectangles
//
// What is printed twice (alternatives of a formula, a table that also stands
// in the floats group) is read once. Where something cannot be read, a table
// that is only a picture for example, a Problem says so and the rest goes on.
package jats

import (
	"fmt"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/xmltree"
)

// Options say how to read. The zero value is right for most.
type Options struct {
	// Picture reads a table that is only a picture, by the names that the
	// article gives its files; file is the one that was read. Nil: such tables
	// are not read, and said to be pictures.
	Picture func(names []string) (tables []*extract.Table, file string, err error)
}

// Read reads the article in data; name is the file it came from, for messages
// and places. Of a collection it reads the first article and says so.
func Read(data []byte, name string) (*extract.Document, error) {
	return Options{}.Read(data, name)
}

// Read is Read with options.
func (opt Options) Read(data []byte, name string) (*extract.Document, error) {
	docs, err := opt.ReadAll(data, name)
	if err != nil {
		return nil, err
	}
	d := docs[0]
	if n := len(docs); n > 1 {
		d.Problems = append(d.Problems, &extract.Problem{
			Place: extract.Place{File: name},
			What:  fmt.Sprintf("the file holds %d articles; only the first is read", n),
			Try:   "give each article its own file",
		})
	}
	return d, nil
}

// ReadAll reads every article in data, in order: one, or those of a
// collection. There is at least one when the error is nil.
func ReadAll(data []byte, name string) ([]*extract.Document, error) {
	return Options{}.ReadAll(data, name)
}

// ReadAll is ReadAll with options.
func (opt Options) ReadAll(data []byte, name string) ([]*extract.Document, error) {
	top, broken := xmltree.Parse(data)
	var docs []*extract.Document
	for _, article := range articles(top) {
		d := read(article, name, opt)
		if len(d.Blocks) == 0 && d.Meta.Title == "" {
			continue
		}
		if broken != nil {
			d.Problems = append(d.Problems, &extract.Problem{
				Place: extract.Place{File: name},
				What:  broken.Error() + "; what stands after that is not read",
				Try:   "get the file again from its publisher",
				Err:   broken,
			})
		}
		docs = append(docs, d)
	}
	if len(docs) > 0 && !fatal(broken) {
		return docs, nil
	}
	p := &extract.Problem{Place: extract.Place{File: name}, Err: broken}
	switch {
	case broken != nil:
		p.What, p.Try = broken.Error(), "get the file again from its publisher"
	case top.Find("article") != nil:
		p.What, p.Try = "the article in this XML has no text", "get the full text from its publisher"
	default:
		p.What, p.Try = "this XML holds no journal article (no <article> with a <front> or <body>)", "give an article in JATS XML, or the paper as HTML, PDF or text"
	}
	return nil, p
}

// fatal errors are those after which even what was read is not to be used.
func fatal(err error) bool { return xmltree.Refused(err) }

// articles finds the articles of a document, whatever wraps them. Articles
// inside an article (reviews, replies, translations) are not papers of their
// own.
func articles(n *xmltree.Node) []*xmltree.Node {
	if n == nil {
		return nil
	}
	var out []*xmltree.Node
	for _, k := range n.Kids {
		switch {
		case k.Is("article") && k.Child("front", "body", "Front", "Body") != nil:
			out = append(out, k)
		case k.Name != "":
			out = append(out, articles(k)...)
		}
	}
	return out
}

// reader walks one article.
type reader struct {
	*flow.Writer
	opt    Options
	floats map[string]*xmltree.Node // by id: what stands in the floats group
	order  []*xmltree.Node          // the same in their order
	done   map[*xmltree.Node]bool
	seen   map[string]bool // ids of tables and figures already given
	held   []*xmltree.Node // blocks met inside the paragraph being read
}

func read(article *xmltree.Node, name string, opt Options) *extract.Document {
	r := &reader{
		opt:    opt,
		Writer: flow.New(name, "jats"),
		floats: map[string]*xmltree.Node{},
		done:   map[*xmltree.Node]bool{},
		seen:   map[string]bool{},
	}
	r.collect(article)
	front := article.Child("front")
	r.Doc.Meta = meta(article, front)
	r.abstracts(article, front)
	if body := article.Child("body"); body != nil {
		r.blocks(body)
	}
	for _, f := range r.order { // those that nothing in the text refers to
		r.float(f)
	}
	r.back(article, front)
	return r.Finish()
}

// collect lists the tables and figures that stand apart from the text.
func (r *reader) collect(article *xmltree.Node) {
	for _, group := range article.Kids {
		if !group.Is("floats-group", "floats-wrap") {
			continue
		}
		for _, f := range group.Kids {
			if f.Name == "" {
				continue
			}
			r.order = append(r.order, f)
			for _, k := range append([]*xmltree.Node{f}, f.Kids...) {
				if id := k.Attr("id"); id != "" {
					r.floats[id] = f
				}
			}
		}
	}
}

// float gives a table or figure of the floats group, once.
func (r *reader) float(n *xmltree.Node) {
	if r.done[n] {
		return
	}
	r.done[n] = true
	r.block(n)
}

// abstracts gives the abstracts in the language of the paper; a translation
// would say everything twice. A translation into English of a paper in
// another language is kept, because statements are read from English.
func (r *reader) abstracts(article, front *xmltree.Node) {
	m := articleMeta(front)
	if m == nil {
		return
	}
	for _, k := range m.Kids {
		english := len(k.Attr("lang")) >= 2 && k.Attr("lang")[:2] == "en"
		foreign := len(article.Attr("lang")) >= 2 && article.Attr("lang")[:2] != "en"
		if k.Is("abstract") || k.Is("trans-abstract") && english && foreign {
			r.Enter(extract.Abstract, "")
			r.blocks(k)
			r.Leave()
		}
	}
}

// back gives acknowledgements, notes, appendices and references.
func (r *reader) back(article, front *xmltree.Node) {
	r.Enter(extract.Back, "")
	defer r.Leave()
	if m := articleMeta(front); m != nil {
		for _, k := range m.Kids {
			if k.Is("author-notes") {
				r.blocks(k)
			}
		}
	}
	if b := article.Child("back"); b != nil {
		r.blocks(b)
	}
}
