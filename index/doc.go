// Package index keeps papers that were read and judged, and finds them again.
//
//	Entry{bytes, text with places, card, audit} → Library on disk → Find → []Hit with places
//
// The folders are the truth:
//
//	library.json                 which version of the layout this is
//	library.lock                 held while a process writes or searches; taken before anything is made
//	papers/<id>/original         the bytes as they were given
//	papers/<id>/corrections.csv  what a person wrote beside the paper, if anything
//	papers/<id>/kept.txt         what was made of it: record, audit, text with places
//	collections/<sha256>         a file that holds several papers, kept once
//	search.bleve/                the search index: a cache, made again by Rebuild
//	search.json                  sizes and checksums of the index files
//	search.last/                 while a process writes: the index others search
//
// A paper's folder is written beside its final place, brought to the disk and
// renamed, so it is there whole or not at all. The index may lag behind or
// break; Writer brings it up to the folders, Check notices, Rebuild makes it
// anew. The types of the search engine stay inside this package, and so does
// everything it knows of the trade: synonyms reach it as values.
package index
