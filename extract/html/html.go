// Package html reads a paper from an HTML page: a publisher's article page, a
// repository's, or one saved by hand.
//
//	bytes → extract.Document: prose in reading order, tables as rectangles
//
// Everything round the article (navigation, scripts, hidden parts, side
// columns) is passed over, and tables that only lay out the page are read as
// the text they hold. Headings give the sections; captions and footnotes are
// found from the elements where the page has them and from their words where
// it has not.
package html

import (
	"bytes"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
	"golang.org/x/net/html/charset"

	"probity/extract"
	"probity/extract/internal/flow"
)

// MaxBytes is the largest page that is read.
const MaxBytes = 64 << 20

// Read reads the page in data; name is the file it came from, for messages
// and places.
func Read(data []byte, name string) (*extract.Document, error) {
	problem := func(what, try string, err error) error {
		return &extract.Problem{Place: extract.Place{File: name}, What: what, Try: try, Err: err}
	}
	if len(data) > MaxBytes {
		return nil, problem("the page is larger than 64 MB", "save the article alone", nil)
	}
	in, err := charset.NewReader(bytes.NewReader(data), "")
	if err != nil {
		return nil, problem("the page is in an encoding that is not known", "save it again as UTF-8", err)
	}
	top, err := html.Parse(in)
	if err != nil {
		return nil, problem("the page cannot be read as HTML: "+err.Error(), "save it again from the browser", err)
	}
	r := &reader{Flat: flow.NewFlat(name, "html")}
	r.meta(top)
	r.blocks(root(top), scope{})
	d := r.Finish()
	if len(d.Blocks) == 0 {
		return nil, problem("the page holds no text", "open it in a browser and save the article from there", nil)
	}
	return d, nil
}

// reader walks one page.
type reader struct {
	*flow.Flat
	named bool // the title has been met in the text
}

// scope is what stands round a block.
type scope struct {
	kind  flow.Kind
	depth int
}

// root is the element that holds the article: the smallest main or article
// element that has most of the text, or the body.
func root(top *html.Node) *html.Node {
	body := find(top, func(n *html.Node) bool { return n.DataAtom == atom.Body })
	if body == nil {
		return top
	}
	sizes := map[*html.Node]int{}
	best, all := body, textSize(body, sizes)
	var walk func(n *html.Node)
	walk = func(n *html.Node) {
		for k := n.FirstChild; k != nil; k = k.NextSibling {
			if k.Type != html.ElementNode || skipped(k) {
				continue
			}
			main := k.DataAtom == atom.Main || k.DataAtom == atom.Article || attr(k, "role") == "main"
			if main && 10*sizes[k] >= 8*all {
				best = k
			}
			walk(k)
		}
	}
	walk(body)
	return best
}

// textSize is the amount of text under n that would be read; it notes that of
// the elements that may hold the article.
func textSize(n *html.Node, sizes map[*html.Node]int) int {
	if n.Type == html.TextNode {
		return len(strings.TrimSpace(n.Data))
	}
	if n.Type == html.ElementNode && skipped(n) {
		return 0
	}
	size := 0
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		size += textSize(k, sizes)
	}
	if n.Type == html.ElementNode && (n.DataAtom == atom.Main || n.DataAtom == atom.Article || attr(n, "role") == "main") {
		sizes[n] = size
	}
	return size
}

func find(n *html.Node, ok func(*html.Node) bool) *html.Node {
	if n.Type == html.ElementNode && ok(n) {
		return n
	}
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		if f := find(k, ok); f != nil {
			return f
		}
	}
	return nil
}

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}
