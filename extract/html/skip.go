package html

import (
	"strings"
	"unicode"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// neverText are elements that hold no text of the paper.
var neverText = map[atom.Atom]bool{
	atom.Script: true, atom.Style: true, atom.Noscript: true, atom.Template: true, atom.Nav: true, atom.Form: true,
	atom.Button: true, atom.Select: true, atom.Svg: true, atom.Iframe: true, atom.Object: true, atom.Video: true,
	atom.Audio: true, atom.Canvas: true, atom.Dialog: true, atom.Head: true, atom.Input: true, atom.Textarea: true,
	atom.Datalist: true, atom.Menu: true,
}

// aroundRoles are ARIA roles of what stands round an article.
// Source: WAI-ARIA 1.2, section 5.3.4, landmark roles.
var aroundRoles = map[string]bool{
	"navigation": true, "banner": true, "complementary": true, "search": true, "contentinfo": true, "dialog": true,
	"menu": true, "menubar": true, "toolbar": true, "alert": true, "tablist": true,
}

// aroundWords are words in class names of what stands round an article.
// Source: common practice of publishers' pages.
var aroundWords = map[string]bool{
	"nav": true, "navbar": true, "navigation": true, "sidebar": true, "breadcrumb": true, "breadcrumbs": true,
	"cookie": true, "cookies": true, "advert": true, "advertisement": true, "banner": true, "share": true,
	"sharing": true, "social": true, "toolbar": true, "recommended": true, "recommendations": true, "altmetric": true,
	"metrics": true, "newsletter": true, "paywall": true, "popup": true, "modal": true, "tooltip": true, "login": true,
	"comments": true, "pagination": true, "menu": true, "skip": true,
}

// hiddenWords are class names that take text out of sight.
var hiddenWords = []string{"sr-only", "visually-hidden", "visuallyhidden", "screen-reader", "u-visually-hidden", "mathjax_preview", "mathjax_svg", "mjx-chtml"}

// skipped reports an element that is no part of what a reader of the paper
// sees. What may hold the article itself is never skipped for its class.
func skipped(n *html.Node) bool {
	if neverText[n.DataAtom] {
		return !(n.DataAtom == atom.Script && strings.HasPrefix(attr(n, "type"), "math/tex"))
	}
	class, around := "", false
	for _, a := range n.Attr {
		switch a.Key {
		case "hidden":
			return a.Val != "until-found"
		case "style":
			s := strings.ToLower(strings.ReplaceAll(a.Val, " ", ""))
			if strings.Contains(s, "display:none") || strings.Contains(s, "visibility:hidden") {
				return true
			}
		case "aria-hidden":
			if a.Val == "true" && n.DataAtom != atom.Table {
				return true
			}
		case "role":
			around = around || aroundRoles[a.Val]
		case "class", "id":
			class += " " + a.Val
		}
	}
	if n.DataAtom == atom.Aside || n.DataAtom == atom.Footer {
		around = true
	}
	lower := strings.ToLower(class)
	for _, w := range hiddenWords {
		if strings.Contains(lower, w) {
			return true
		}
	}
	if !around && class != "" {
		around = hasWord(lower, aroundWords)
	}
	return around && !holdsPaper(n)
}

// hasWord reports whether one of the words of a class attribute is in the set.
func hasWord(class string, set map[string]bool) bool {
	for w := range strings.FieldsFuncSeq(class, func(r rune) bool { return !unicode.IsLetter(r) }) {
		if set[w] {
			return true
		}
	}
	return false
}

// holdsPaper reports an element with the title, a main element or a data table
// in it.
func holdsPaper(n *html.Node) bool {
	return find(n, func(k *html.Node) bool {
		switch k.DataAtom {
		case atom.H1, atom.Main, atom.Caption, atom.Figcaption, atom.Thead:
			return true
		}
		return attr(k, "role") == "main"
	}) != nil
}
