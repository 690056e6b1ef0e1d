package export

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"pintle/mesh"
)

const (
	stlHeader   = 80
	stlTriangle = 50   // bytes: a normal and three corners of float32, and a count of attribute bytes
	stlBlock    = 5000 // triangles encoded at a time
)

// WriteSTL writes a mesh as binary STL in mm. The header begins with "pintle"
// and the name, never with "solid". Coordinates are exact; normals are rounded
// from the exact ones. The same mesh gives the same bytes on every machine.
func WriteSTL(w io.Writer, name string, m *mesh.Mesh) error {
	if uint64(len(m.Triangles)) > math.MaxUint32 {
		return fmt.Errorf("writing %s: %d triangles are more than an STL file can count", name, len(m.Triangles))
	}
	var head [stlHeader + 4]byte
	copy(head[:stlHeader], stlTitle(name))
	binary.LittleEndian.PutUint32(head[stlHeader:], uint32(len(m.Triangles)))
	_, err := w.Write(head[:])
	if err == nil {
		err = writeBlocks(w, (len(m.Triangles)+stlBlock-1)/stlBlock, func(block int, to []byte) []byte {
			first := block * stlBlock
			n := min(stlBlock, len(m.Triangles)-first)
			to = slices.Grow(to, n*stlTriangle)[:n*stlTriangle]
			for i := range n {
				corners := m.Corners(first + i)
				putTriangle((*[stlTriangle]byte)(to[i*stlTriangle:]), m.Normal(first+i), corners[0], corners[1], corners[2])
			}
			return to
		})
	}
	if err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	return nil
}

// putTriangle fills one record; its attribute bytes stay zero.
func putTriangle(to *[stlTriangle]byte, normal, a, b, c [3]float32) {
	putVector(to[0:12:12], normal)
	putVector(to[12:24:24], a)
	putVector(to[24:36:36], b)
	putVector(to[36:48:48], c)
}

func putVector(to []byte, v [3]float32) {
	_ = to[11]
	binary.LittleEndian.PutUint32(to[0:4], math.Float32bits(v[0]))
	binary.LittleEndian.PutUint32(to[4:8], math.Float32bits(v[1]))
	binary.LittleEndian.PutUint32(to[8:12], math.Float32bits(v[2]))
}

// stlTitle shortens a name to what the header holds, in plain ASCII.
func stlTitle(name string) string {
	const before, after = "pintle ", " mm"
	var plain []byte
	for _, r := range name {
		if r < ' ' || r > '~' {
			r = '_'
		}
		plain = append(plain, byte(r))
	}
	return before + string(plain[:min(len(plain), stlHeader-len(before)-len(after))]) + after
}

// The formats that ReadSTL tells apart.
const (
	BinarySTL     = "binary STL"
	ASCIISTL      = "ASCII STL"
	MisleadingSTL = "binary STL that says solid" // its header begins like an ASCII file
)

// ReadSTL reads the triangles of an STL file of the given size. A file is
// binary if its size fits the count in its header, whatever the header says;
// otherwise it must be ASCII. Normals are not read: the order of the corners
// says which side is out. A binary file that was cut short is an error.
func ReadSTL(r io.ReaderAt, size int64) (mesh.Soup, string, error) {
	var head [stlHeader + 4]byte
	n, err := r.ReadAt(head[:min(size, int64(len(head)))], 0)
	if err != nil && err != io.EOF {
		return nil, "", fmt.Errorf("reading the STL header: %w", err)
	}
	count := int64(binary.LittleEndian.Uint32(head[stlHeader:]))
	promised := int64(len(head)) + count*stlTriangle
	switch {
	case n == len(head) && size == promised:
		soup, err := readBinary(io.NewSectionReader(r, int64(len(head)), size-int64(len(head))), int(count))
		if strings.EqualFold(string(head[:5]), "solid") {
			return soup, MisleadingSTL, err
		}
		return soup, BinarySTL, err
	case looksASCII(r, size):
		soup, err := readASCII(io.NewSectionReader(r, 0, size))
		return soup, ASCIISTL, err
	case n < len(head):
		return nil, "", fmt.Errorf("no STL file: %d bytes are less than a binary header of %d, and it is not ASCII", size, len(head))
	case size < promised:
		return nil, BinarySTL, fmt.Errorf("the file is cut short: its header promises %d triangles in %d bytes, but there are only %d bytes", count, promised, size)
	}
	return nil, BinarySTL, fmt.Errorf("no STL file, or one with something after its end: its header promises %d triangles in %d bytes, but there are %d bytes", count, promised, size)
}

func readBinary(r io.Reader, count int) (mesh.Soup, error) {
	in := bufio.NewReaderSize(r, 1<<16)
	soup := make(mesh.Soup, count)
	var record [stlTriangle]byte
	for i := range soup {
		if _, err := io.ReadFull(in, record[:]); err != nil {
			return nil, fmt.Errorf("reading triangle %d of %d: %w", i+1, count, err)
		}
		for c := range 3 {
			for k := range 3 {
				soup[i][c][k] = math.Float32frombits(binary.LittleEndian.Uint32(record[12+12*c+4*k:]))
			}
		}
	}
	return soup, nil
}
