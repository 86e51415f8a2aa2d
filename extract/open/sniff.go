package open

import (
	"bytes"
	"regexp"
	"unicode/utf8"

	"probity/extract/internal/archive"
	"probity/extract/internal/xmltree"
)

// headSize is how much of a file is looked at to tell what it is.
const headSize = 4096

// pdfHead is where readers of PDF accept its mark (ISO 32000-2, annex I);
// pdfReach is how far it is looked for where more stands before it, such as
// the head of a mail or of a download.
const (
	pdfHead  = 1024
	pdfReach = 64 << 10
)

// pdfStart is where the PDF begins, -1: it is none. The mark stands at the
// start of a line, or nothing but white space stands before it. Beyond the first kilobyte a text may quote it, so a version
// and what every PDF ends with are asked for, too.
func pdfStart(data []byte) int {
	head := data[:min(len(data), pdfReach)]
	blank := len(head) - len(bytes.TrimLeft(head, " \t\r\n\f\x00"))
	end := -1 // looked for once, and only where a mark stands late
	for at := 0; ; at++ {
		i := bytes.Index(head[at:], []byte("%PDF-"))
		if i < 0 {
			return -1
		}
		at += i
		begins := at == 0 || data[at-1] < 0x20 || data[at-1] >= 0x7f || at == blank
		if begins && at < pdfHead {
			return at
		}
		if begins && version.Match(data[at:]) {
			if end < 0 {
				if end = bytes.LastIndex(data, []byte("startxref")); end < 0 {
					return -1
				}
			}
			if at < end {
				return at
			}
		}
	}
}

var version = regexp.MustCompile(`^%PDF-\d\.\d`)

func isPDF(data []byte, _ string) bool { return pdfStart(data) >= 0 }

func isZip(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// isODT reports an OpenDocument text: its type is the first part of the
// archive, not compressed (ISO/IEC 26300-3, section 3.3); archives packed
// again by hand are known by their text part.
func isODT(data []byte, _ string) bool {
	if !isZip(data) {
		return false
	}
	if bytes.Contains(data[:min(len(data), 200)], []byte("mimetypeapplication/vnd.oasis.opendocument.text")) {
		return true
	}
	z, err := archive.Open(data)
	return err == nil && z.Has("content.xml") && !z.Has("word/document.xml") && !z.Has("[Content_Types].xml")
}

// isDOCX takes every other archive: its reader says what is missing.
func isDOCX(data []byte, _ string) bool { return isZip(data) && !isODT(data, "") }

// isXML reports XML that is not HTML.
func isXML(data []byte, _ string) bool {
	h := bytes.ToLower(ascii(data))
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

func isHTML(data []byte, _ string) bool {
	h := bytes.ToLower(ascii(data))
	if root := root(h); bytes.HasPrefix(h, []byte("<")) && (isElementOfHTML[root] || root == "article") {
		return true
	}
	for _, mark := range []string{"<!doctype html", "<html", "<head>", "<body"} {
		if bytes.Contains(h, []byte(mark)) {
			return true
		}
	}
	return false
}

// isText takes what holds no bytes that text cannot hold.
func isText(data []byte, _ string) bool {
	h := data[:min(len(data), headSize)]
	if bytes.HasPrefix(h, []byte("\xff\xfe")) || bytes.HasPrefix(h, []byte("\xfe\xff")) {
		return true
	}
	return bytes.IndexByte(h, 0) < 0
}

// stranger names kinds of files that papers come in but that are not read.
func stranger(data []byte) (what, try string) {
	for _, s := range []struct{ mark, what, try string }{
		{"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "the file is in the format of older word processors (.doc), or is protected with a password", "open it in a word processor and save it as DOCX without a password"},
		{"{\\rtf", "RTF is not read", "open it in a word processor and save it as DOCX"},
		{"%!PS", "PostScript is not read", "turn it into a PDF"},
		{"\x89PNG", "the file is a picture; it needs text recognition", give},
		{"\xff\xd8\xff", "the file is a picture; it needs text recognition", give},
		{"II*\x00", "the file is a picture; it needs text recognition", give},
		{"MM\x00*", "the file is a picture; it needs text recognition", give},
		{"AT&TFORM", "DjVu is not read", "turn it into a PDF with its text"},
		{"Rar!", "the file is an archive", "unpack it and give the papers in it"},
		{"7z\xbc\xaf", "the file is an archive", "unpack it and give the papers in it"},
		{"BZh", "the file is compressed in a way that is not read", "unpack it, or compress it with gzip"},
		{"\xfd7zXZ", "the file is compressed in a way that is not read", "unpack it, or compress it with gzip"},
	} {
		if bytes.HasPrefix(data, []byte(s.mark)) && (s.mark != "BZh" || !utf8.Valid(data[:min(len(data), 64)])) {
			return s.what, s.try
		}
	}
	return "", ""
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
func ascii(data []byte) []byte {
	head := data[:min(len(data), headSize)]
	h := bytes.TrimPrefix(head, []byte("\xef\xbb\xbf"))
	if xmltree.Encoding(head) != "utf-8" && len(head) > 1 {
		h = bytes.TrimPrefix(bytes.TrimPrefix(h, []byte("\xff\xfe")), []byte("\xfe\xff"))
		h = bytes.ReplaceAll(h, []byte{0}, nil)
	}
	return bytes.TrimLeft(h, " \t\r\n")
}
