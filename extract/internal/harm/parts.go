package harm

import (
	"archive/zip"
	"bytes"
	"io"
	"math/rand/v2"
	"slices"
)

// Parts are the ways to damage a zip archive whose text stands in the part
// named: its bytes, what the archive says of it, and the text itself under a
// checksum that agrees. The last leaves two ways out: a text with other digits,
// or without a stretch and still well formed, is another paper.
func Parts(text string) []Way {
	out := slices.Concat(Bytes, []Way{
		{"packed text corrupted", func(r *rand.Rand, d []byte) []byte {
			from, to := packed(d, text)
			for range 1 + r.IntN(8) {
				d[from+r.IntN(to-from)] ^= byte(1 << r.IntN(8))
			}
			return d
		}},
		{"packed text zeroed", func(r *rand.Rand, d []byte) []byte {
			from, to := packed(d, text)
			at := from + r.IntN(to-from)
			clear(d[at : at+1+r.IntN(to-at)])
			return d
		}},
		{"part dropped", func(r *rand.Rand, d []byte) []byte {
			parts := unpack(d)
			at := r.IntN(len(parts))
			return pack(slices.Delete(parts, at, at+1))
		}},
	})
	for _, w := range Bytes {
		if w.Name == "block deleted" || w.Name == "digits changed" {
			continue
		}
		out = append(out, Way{"text: " + w.Name, func(r *rand.Rand, d []byte) []byte {
			parts := unpack(d)
			for i := range parts {
				if parts[i].Name == text {
					parts[i].Data = w.Do(r, parts[i].Data)
				}
			}
			return pack(parts)
		}})
	}
	return out
}

// packed is where the packed bytes of a part stand.
func packed(d []byte, name string) (from, to int) {
	z, err := zip.NewReader(bytes.NewReader(d), int64(len(d)))
	if err != nil {
		panic(err)
	}
	for _, f := range z.File {
		if at, err := f.DataOffset(); err == nil && f.Name == name {
			return int(at), int(at) + int(f.CompressedSize64)
		}
	}
	panic("no part " + name)
}

func unpack(d []byte) []File {
	z, err := zip.NewReader(bytes.NewReader(d), int64(len(d)))
	if err != nil {
		panic(err)
	}
	var out []File
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			panic(err)
		}
		data, err := io.ReadAll(r)
		if err != nil {
			panic(err)
		}
		out = append(out, File{f.Name, data})
	}
	return out
}

func pack(parts []File) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range parts {
		w, err := z.Create(p.Name)
		if err != nil {
			panic(err)
		}
		w.Write(p.Data)
	}
	z.Close()
	return b.Bytes()
}

// Stored is the archive with its parts stored as they are and one text in them
// changed for another of the same length: the checksums stay those of before.
func Stored(d []byte, from, to string) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range unpack(d) {
		w, err := z.CreateHeader(&zip.FileHeader{Name: p.Name, Method: zip.Store})
		if err != nil {
			panic(err)
		}
		w.Write(p.Data)
	}
	z.Close()
	return bytes.ReplaceAll(b.Bytes(), []byte(from), []byte(to))
}
