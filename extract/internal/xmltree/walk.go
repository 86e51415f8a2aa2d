package xmltree

import "strings"

// Attr gives the value of the attribute with that local name.
func (n *Node) Attr(name string) string {
	for _, a := range n.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// Child is the first child element with one of the names, or nil.
func (n *Node) Child(names ...string) *Node {
	if n == nil {
		return nil
	}
	for _, k := range n.Kids {
		if k.Is(names...) {
			return k
		}
	}
	return nil
}

// Is reports whether the node is an element with one of the names.
func (n *Node) Is(names ...string) bool {
	if n == nil || n.Name == "" {
		return false
	}
	for _, s := range names {
		if n.Name == s {
			return true
		}
	}
	return false
}

// Find is the first descendant element with that name in document order.
func (n *Node) Find(name string) *Node {
	if n == nil {
		return nil
	}
	for _, k := range n.Kids {
		if k.Name == "" {
			continue
		}
		if k.Name == name {
			return k
		}
		if f := k.Find(name); f != nil {
			return f
		}
	}
	return nil
}

// All visits the descendant elements with that name, outermost first; it does
// not look for more inside one that was found.
func (n *Node) All(name string) []*Node {
	if n == nil {
		return nil
	}
	var out []*Node
	for _, k := range n.Kids {
		if k.Name == name && name != "" {
			out = append(out, k)
		} else if k.Name != "" {
			out = append(out, k.All(name)...)
		}
	}
	return out
}

// Path follows child elements by name; nil when one is missing.
func (n *Node) Path(names ...string) *Node {
	for _, s := range names {
		if n = n.Child(s); n == nil {
			return nil
		}
	}
	return n
}

// String is all text inside, with white space folded.
func (n *Node) String() string {
	if n == nil {
		return ""
	}
	var b strings.Builder
	n.write(&b)
	return strings.Join(strings.Fields(b.String()), " ")
}

func (n *Node) write(b *strings.Builder) {
	b.WriteString(n.Text)
	for _, k := range n.Kids {
		k.write(b)
	}
}

// Attr0 is Attr of a node that may be nil.
func (n *Node) Attr0(name string) string {
	if n == nil {
		return ""
	}
	return n.Attr(name)
}
