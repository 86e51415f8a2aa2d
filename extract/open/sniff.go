package open

import (
	"bytes"

	"probity/extract/internal/xmltree"
)

func isPDF(head []byte, _ string) bool {
	return bytes.Contains(head[:min(len(head), 1024)], []byte("%PDF-"))
}

// isXML reports XML that is not HTML.
func isXML(head []byte, _ string) bool {
	h := bytes.ToLower(ascii(head))
	if !bytes.HasPrefix(h, []byte("<")) {
		return false
	}
	switch root := root(h); {
	case root == "article": // HTML has an element of that name too
		return !bytes.Contains(h, []byte("<h1")) && !bytes.Contains(h, []byte("<div")) && !bytes.Contains(h, []byte("class="))
	case root == "":
		return bytes.HasPrefix(h, []byte("<?xml"))
	default:
		return !isElementOfHTML[root]
	}
}

func isHTML(head []byte, _ string) bool {
	h := bytes.ToLower(ascii(head))
	if bytes.HasPrefix(h, []byte("<")) {
		return true // whatever is marked up and was not taken for XML
	}
	for _, mark := range []string{"<!doctype html", "<html", "<head>", "<body"} {
		if bytes.Contains(h, []byte(mark)) {
			return true
		}
	}
	return false
}

var isElementOfHTML = map[string]bool{
	"html": true, "head": true, "body": true, "div": true, "p": true, "table": true, "section": true, "main": true,
	"h1": true, "h2": true, "h3": true, "span": true, "a": true, "b": true, "i": true, "ul": true, "ol": true,
	"meta": true, "title": true, "link": true, "script": true, "style": true, "header": true, "nav": true, "figure": true,
}

// root is the name of the first element, without its prefix; "" if the head
// holds none.
func root(h []byte) string {
	for {
		i := bytes.IndexByte(h, '<')
		if i < 0 || i+1 >= len(h) {
			return ""
		}
		h = h[i+1:]
		switch {
		case bytes.HasPrefix(h, []byte("!--")):
			end := bytes.Index(h, []byte("-->"))
			if end < 0 {
				return ""
			}
			h = h[end+3:]
		case bytes.HasPrefix(h, []byte("!doctype")):
			if sub := bytes.IndexByte(h, '['); sub >= 0 && sub < bytes.IndexByte(h, '>') {
				if end := bytes.Index(h, []byte("]")); end > 0 {
					h = h[end:]
				}
			}
		case h[0] >= 'a' && h[0] <= 'z':
			name := h[:max(bytes.IndexAny(h, " \t\r\n/>"), 0)]
			if _, local, ok := bytes.Cut(name, []byte(":")); ok {
				name = local
			}
			return string(name)
		}
	}
}

// ascii is the head without byte order mark, leading space and the zero bytes
// of UTF-16, enough to see its first words.
func ascii(head []byte) []byte {
	h := bytes.TrimPrefix(head, []byte("\xef\xbb\xbf"))
	if xmltree.Encoding(head) != "utf-8" && len(head) > 1 {
		h = bytes.TrimPrefix(bytes.TrimPrefix(h, []byte("\xff\xfe")), []byte("\xfe\xff"))
		h = bytes.ReplaceAll(h, []byte{0}, nil)
	}
	return bytes.TrimLeft(h, " \t\r\n")
}
