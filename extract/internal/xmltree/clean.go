package xmltree

import (
	"bytes"
	"fmt"
	"html"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/net/html/charset"
)

// clean makes UTF-8 of the bytes and takes out what encoding/xml stops at
// even when lenient: the XML declaration (of another version or encoding than
// the bytes now have), control characters, bad UTF-8.
func clean(data []byte) ([]byte, error) {
	name := Encoding(data)
	if name != "utf-8" {
		r, err := charset.NewReaderLabel(name, bytes.NewReader(data))
		if err != nil {
			return nil, fmt.Errorf("the XML says it is in %q, which is not a known encoding", name)
		}
		if data, err = io.ReadAll(r); err != nil {
			return nil, fmt.Errorf("the XML cannot be read as %s: %w", name, err)
		}
	}
	data = bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), " \t\r\n\x00")
	if bytes.HasPrefix(data, []byte("<?xml")) {
		if i := bytes.Index(data, []byte("?>")); i >= 0 {
			data = data[i+2:]
		}
	}
	if i := firstBad(data); i >= 0 {
		data = scrub(data, i)
	}
	return data, nil
}

// Encoding names the encoding of an XML document: from its byte order mark,
// then from its declaration; UTF-8 when neither says.
func Encoding(data []byte) string {
	switch {
	case bytes.HasPrefix(data, []byte("\xfe\xff")), bytes.HasPrefix(data, []byte("\x00<")):
		return "utf-16be"
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("<\x00")):
		return "utf-16le"
	}
	head := data[:min(len(data), 200)]
	decl, _, ok := bytes.Cut(head, []byte("?>"))
	if !ok || !bytes.Contains(decl, []byte("<?xml")) {
		return "utf-8"
	}
	_, rest, ok := bytes.Cut(decl, []byte("encoding"))
	if !ok {
		return "utf-8"
	}
	rest = bytes.TrimLeft(rest, " =\t\r\n")
	if len(rest) < 2 || rest[0] != '"' && rest[0] != '\'' {
		return "utf-8"
	}
	name, _, _ := bytes.Cut(rest[1:], rest[:1])
	switch s := strings.ToLower(string(name)); s {
	case "", "utf8", "us-ascii", "ascii", "utf-16", "utf16", "ucs-2", "unicode":
		return "utf-8" // no mark of UTF-16 was found: the declaration is stale
	default:
		return s
	}
}

// firstBad finds the first byte that XML does not allow, or -1.
func firstBad(data []byte) int {
	for i := 0; i < len(data); {
		c := data[i]
		if c < utf8.RuneSelf {
			if control(c) || c == '&' && bytes.HasPrefix(data[i:], []byte("&#")) && badReference(data[i:]) > 0 {
				return i
			}
			i++
			continue
		}
		r, n := utf8.DecodeRune(data[i:])
		if badRune(r, n) {
			return i
		}
		i += n
	}
	return -1
}

func control(c byte) bool { return c < 0x20 && c != '\t' && c != '\n' && c != '\r' }

func badRune(r rune, n int) bool {
	return r == utf8.RuneError && n == 1 || r == 0xFFFE || r == 0xFFFF
}

// badReference gives the length of a numeric character reference to a
// character that XML does not allow, or 0.
func badReference(data []byte) int {
	end := bytes.IndexByte(data[:min(len(data), 12)], ';')
	if end < 3 {
		return 0
	}
	s := html.UnescapeString(string(data[:end+1]))
	body := strings.ToLower(string(data[2:end]))
	hex := strings.TrimLeft(strings.TrimPrefix(body, "x"), "0")
	bad := s == string(data[:end+1]) || s == "" || hex == "" || len(s) == 1 && control(s[0]) ||
		strings.HasPrefix(body, "x") && (len(hex) == 1 && strings.Contains("12345678bcef", hex) ||
			len(hex) == 2 && hex[0] == '1' || len(hex) == 4 && (hex >= "d800" && hex <= "dfff" || hex >= "fffe"))
	if !bad {
		return 0
	}
	return end + 1
}

// scrub copies data from the first bad place on without what XML does not
// allow; a byte that is no UTF-8 is read as Windows-1252, its usual origin.
func scrub(data []byte, from int) []byte {
	out := append(make([]byte, 0, len(data)+64), data[:from]...)
	for i := from; i < len(data); {
		c := data[i]
		if c == '&' && bytes.HasPrefix(data[i:], []byte("&#")) {
			if n := badReference(data[i:]); n > 0 {
				i += n
				continue
			}
		}
		if c < utf8.RuneSelf {
			if !control(c) {
				out = append(out, c)
			}
			i++
			continue
		}
		r, n := utf8.DecodeRune(data[i:])
		if !badRune(r, n) {
			out = append(out, data[i:i+n]...)
		} else if n == 1 {
			out = utf8.AppendRune(out, latin(c))
		}
		i += n
	}
	return out
}

// latin reads one byte from 0x80 on as Windows-1252 (the characters of which
// HTML's rules for bad numeric references already hold).
func latin(c byte) rune {
	r, _ := utf8.DecodeRuneInString(html.UnescapeString(fmt.Sprintf("&#%d;", c)))
	return r
}

// Entities undoes entities that are left after XML has been read: HTML's own,
// which XML does not know, and those that were escaped twice
// ("&amp;plusmn;"). Once: what then still looks like one stands for itself.
func Entities(s string) string {
	var b strings.Builder
	for {
		i := strings.IndexByte(s, '&')
		if i < 0 {
			break
		}
		b.WriteString(s[:i])
		s = s[i:]
		end := strings.IndexByte(s[:min(len(s), 34)], ';')
		if end < 2 || strings.ContainsAny(s[1:end], " \t\n&<>/=") {
			b.WriteByte('&')
			s = s[1:]
			continue
		}
		b.WriteString(html.UnescapeString(s[:end+1]))
		s = s[end+1:]
	}
	return b.String() + s
}
