package flow

import (
	"strings"
	"unicode"

	"probity/extract"
)

// titles are the headings of papers and the section each opens, in the order
// they are tried. A title is named when it is the phrase or opens with it as a
// whole word ("methods of testing"); phrases that only count alone are in
// alone. Source: common practice of journals that follow the ICMJE
// Recommendations, "Preparing a manuscript", and their usual variants.
var titles = []struct {
	phrase  string
	section extract.Section
}{
	{"abstract", extract.Abstract},
	{"structured abstract", extract.Abstract},
	{"highlights", extract.Abstract},
	{"introduction", extract.Introduction},
	{"background", extract.Introduction},
	{"literature review", extract.Introduction},
	{"review of literature", extract.Introduction},
	{"materials and methods", extract.Methods},
	{"material and methods", extract.Methods},
	{"materials and method", extract.Methods},
	{"material and method", extract.Methods},
	{"materials & methods", extract.Methods},
	{"material & methods", extract.Methods},
	{"methods and materials", extract.Methods},
	{"method and materials", extract.Methods},
	{"patients and methods", extract.Methods},
	{"subjects and methods", extract.Methods},
	{"participants and methods", extract.Methods},
	{"methods", extract.Methods},
	{"method", extract.Methods},
	{"methodology", extract.Methods},
	{"materials", extract.Methods},
	{"experimental", extract.Methods},
	{"experiment", extract.Methods},
	{"experiments", extract.Methods},
	{"study design", extract.Methods},
	{"statistical analysis", extract.Methods},
	{"statistical analyses", extract.Methods},
	{"statistical methods", extract.Methods},
	{"statistics", extract.Methods},
	{"sample preparation", extract.Methods},
	{"specimen preparation", extract.Methods},
	{"results", extract.Results},
	{"result", extract.Results},
	{"findings", extract.Results},
	{"discussion", extract.Discussion},
	{"discussions", extract.Discussion},
	{"limitations", extract.Discussion},
	{"strengths and limitations", extract.Discussion},
	{"clinical relevance", extract.Conclusion},
	{"clinical significance", extract.Conclusion},
	{"clinical implications", extract.Conclusion},
	{"conclusion", extract.Conclusion},
	{"conclusions", extract.Conclusion},
	{"concluding remarks", extract.Conclusion},
	{"summary and conclusion", extract.Conclusion},
	{"summary and conclusions", extract.Conclusion},
	{"acknowledgement", extract.Back},
	{"acknowledgements", extract.Back},
	{"acknowledgment", extract.Back},
	{"acknowledgments", extract.Back},
	{"funding", extract.Back},
	{"financial support", extract.Back},
	{"financial disclosure", extract.Back},
	{"source of funding", extract.Back},
	{"sources of funding", extract.Back},
	{"source of support", extract.Back},
	{"conflict of interest", extract.Back},
	{"conflicts of interest", extract.Back},
	{"competing interest", extract.Back},
	{"competing interests", extract.Back},
	{"declaration of interest", extract.Back},
	{"declaration of competing interest", extract.Back},
	{"declaration of conflicting interests", extract.Back},
	{"declarations", extract.Back},
	{"disclosure", extract.Back},
	{"disclosures", extract.Back},
	{"author contributions", extract.Back},
	{"authors' contributions", extract.Back},
	{"authors contributions", extract.Back},
	{"author contribution", extract.Back},
	{"credit authorship contribution statement", extract.Back},
	{"contributors", extract.Back},
	{"author information", extract.Back},
	{"authors' information", extract.Back},
	{"data availability", extract.Back},
	{"availability of data", extract.Back},
	{"ethics approval", extract.Back},
	{"ethical approval", extract.Back},
	{"ethics declarations", extract.Back},
	{"ethics statement", extract.Back},
	{"informed consent", extract.Back},
	{"consent for publication", extract.Back},
	{"supplementary material", extract.Back},
	{"supplementary materials", extract.Back},
	{"supplementary data", extract.Back},
	{"supplementary information", extract.Back},
	{"supporting information", extract.Back},
	{"additional information", extract.Back},
	{"additional files", extract.Back},
	{"pre-publication history", extract.Back},
	{"publisher's note", extract.Back},
	{"rights and permissions", extract.Back},
	{"about this article", extract.Back},
	{"cite this article", extract.Back},
	{"footnotes", extract.Back},
	{"references", extract.Back},
	{"reference", extract.Back},
	{"bibliography", extract.Back},
	{"literature cited", extract.Back},
	{"literature", extract.Back},
}

// alone are titles that name a section only when nothing else stands in them.
var alone = map[string]extract.Section{
	"summary":               extract.Abstract,
	"synopsis":              extract.Abstract,
	"aim":                   extract.Introduction,
	"aims":                  extract.Introduction,
	"aim of the study":      extract.Introduction,
	"objective":             extract.Introduction,
	"objectives":            extract.Introduction,
	"purpose":               extract.Introduction,
	"purpose of the study":  extract.Introduction,
	"statement of problem":  extract.Introduction,
	"hypothesis":            extract.Introduction,
	"outcomes":              extract.Results,
	"observations":          extract.Results,
	"comment":               extract.Discussion,
	"comments":              extract.Discussion,
	"interests":             extract.Back,
	"abbreviations":         extract.Back,
	"list of abbreviations": extract.Back,
	"orcid":                 extract.Back,
	"notes":                 extract.Back,
}

// Named gives the section that a title names, or "", and whether the title is
// nothing but that name.
func Named(title string) (section extract.Section, plain bool) {
	s := fold(title)
	if named, ok := alone[s]; ok {
		return named, true
	}
	for _, t := range titles {
		rest, ok := strings.CutPrefix(s, t.phrase)
		if !ok || rest != "" && rest[0] != ' ' && rest[0] != ',' && rest[0] != ':' && rest[0] != '/' && rest[0] != '(' {
			continue
		}
		if rest != "" && only[t.phrase] {
			continue
		}
		return t.section, rest == ""
	}
	return "", false
}

// within reports back matter that also stands inside other sections: what was
// consented to belongs to the methods there.
func within(title string) bool {
	s := fold(title)
	return strings.Contains(s, "ethic") || strings.Contains(s, "consent") || strings.Contains(s, "abbreviation") || s == "notes"
}

// only are phrases that open too many other titles to count unless alone.
var only = map[string]bool{
	"reference": true, "literature": true, "experiment": true, "materials": true,
	"result": true, "findings": true, "background": true, "disclosure": true,
}

// fold lowers a title and takes off its numbering and closing marks.
func fold(title string) string {
	s := strings.ToLower(extract.Fold(title))
	s = strings.ReplaceAll(s, "’", "'")
	s = strings.TrimFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != ')' && r != '(' })
	return strings.TrimSpace(numbering(s))
}

// numbering takes "2.1", "2)", "iv." and "b." off the front of a title.
func numbering(s string) string {
	word, rest, ok := strings.Cut(s, " ")
	if !ok {
		return s
	}
	bare := strings.TrimRight(word, ".):")
	if bare != "" && strings.Trim(bare, "0123456789.") == "" {
		return strings.TrimLeft(rest, " -–—|")
	}
	if bare != word && (strings.Trim(bare, "ivx") == "" || len(bare) == 1) {
		return rest
	}
	return s
}
