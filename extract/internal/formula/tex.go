package formula

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/extract"
)

// TeX writes the formula in s, which may be a whole small TeX document as
// publishers store them. It knows the signs that stand in figures and
// statistics, not all of TeX; a command it does not know is left out and its
// argument kept.
func TeX(s string) []extract.Run {
	if _, body, ok := strings.Cut(s, `\begin{document}`); ok {
		s, _, _ = strings.Cut(body, `\end{document}`)
	}
	t := &tex{src: s}
	t.group(0, 0)
	return t.out.runs
}

type tex struct {
	src string
	out math
}

// group writes up to the closing brace or the end.
func (t *tex) group(height, depth int) {
	for t.src != "" {
		c, n := utf8.DecodeRuneInString(t.src)
		t.src = t.src[n:]
		switch {
		case c == '}':
			return
		case c == '{':
			if depth < 100 {
				t.group(height, depth+1)
			}
		case c == '^' || c == '_':
			t.argument(map[rune]int{'^': 1, '_': -1}[c], depth)
		case c == '\\':
			t.command(height, depth)
		case c == '$' || c == '&':
		case c == '~':
			t.out.add(" ", height)
		case c == '-':
			t.out.add("−", height)
		case unicode.IsSpace(c):
		default:
			t.out.add(operator(string(c)), height)
		}
	}
}

// argument writes what a script or command applies to: a group or one sign.
func (t *tex) argument(height, depth int) {
	t.src = strings.TrimLeftFunc(t.src, unicode.IsSpace)
	if t.src == "" || depth > 100 {
		return
	}
	c, n := utf8.DecodeRuneInString(t.src)
	t.src = t.src[n:]
	switch c {
	case '{':
		t.group(height, depth+1)
	case '\\':
		t.command(height, depth+1)
	case '}':
		t.src = "}" + t.src
	default:
		t.out.add(string(c), height)
	}
}

func (t *tex) command(height, depth int) {
	n := 0
	for n < len(t.src) && isLetter(t.src[n]) {
		n++
	}
	if n == 0 && t.src != "" {
		_, n = utf8.DecodeRuneInString(t.src)
	}
	name := t.src[:n]
	t.src = t.src[n:]
	switch name {
	case "frac", "dfrac", "tfrac":
		t.bracketed(height, depth)
		t.out.add("/", height)
		t.bracketed(height, depth)
	case "sqrt":
		t.out.add("√(", height)
		t.argument(height, depth)
		t.out.add(")", height)
	case "bar", "overline":
		t.argument(height, depth)
		t.out.add("\u0304", height)
	case "hat":
		t.argument(height, depth)
		t.out.add("\u0302", height)
	case "text", "textrm", "mbox", "mathrm", "textit", "textbf":
		t.words(height, depth)
	case "begin", "end", "usepackage", "documentclass", "setlength", "hspace", "vspace", "color":
		mute := t.out.runs
		t.out.runs = nil
		t.argument(height, depth)
		t.out.runs = mute
	default:
		t.out.add(signs[name], height)
	}
}

// bracketed writes an argument, in brackets when it is more than one thing.
func (t *tex) bracketed(height, depth int) {
	outer := t.out.runs
	t.out.runs = nil
	t.argument(height, depth)
	part := t.out.runs
	t.out.runs = outer
	compound := strings.ContainsAny(extract.Flatten(part), "+-−±×·/= ")
	if compound {
		t.out.add("(", height)
	}
	t.out.runs = append(t.out.runs, part...)
	if compound {
		t.out.add(")", height)
	}
}

// words writes the argument of a text command, where white space counts.
func (t *tex) words(height, depth int) {
	body, rest, ok := strings.Cut(t.src, "}")
	if !ok || !strings.HasPrefix(body, "{") || strings.ContainsAny(body[1:], `\{`) {
		t.argument(height, depth)
		return
	}
	t.out.add(strings.ReplaceAll(body[1:], "~", " "), height)
	t.src = rest
}

func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

// signs are the commands that stand for a sign. Source: Knuth, The TeXbook,
// appendix F.
var signs = map[string]string{
	"pm": " ± ", "mp": " ∓ ", "times": " × ", "cdot": "·", "div": "÷", "ast": "*",
	"le": " ≤ ", "leq": " ≤ ", "leqslant": " ≤ ", "ge": " ≥ ", "geq": " ≥ ", "geqslant": " ≥ ",
	"lt": " < ", "gt": " > ", "ne": " ≠ ", "neq": " ≠ ", "approx": " ≈ ", "sim": "~", "simeq": " ≈ ",
	"alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "Delta": "Δ", "epsilon": "ε", "varepsilon": "ε",
	"eta": "η", "theta": "θ", "kappa": "κ", "lambda": "λ", "mu": "μ", "nu": "ν", "pi": "π", "rho": "ρ",
	"sigma": "σ", "Sigma": "Σ", "sum": "Σ", "tau": "τ", "phi": "φ", "chi": "χ", "omega": "ω", "Omega": "Ω",
	"degree": "°", "circ": "°", "infty": "∞", "ldots": "…", "dots": "…", "to": "→", "rightarrow": "→",
	"%": "%", "&": "&", "#": "#", "_": "_", "{": "{", "}": "}", "$": "$",
	",": " ", ";": " ", ":": " ", " ": " ", "quad": " ", "qquad": " ", "\\": " ",
	"prime": "′", "log": "log", "ln": "ln", "exp": "exp", "max": "max", "min": "min", "percnt": "%",
}
