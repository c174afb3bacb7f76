package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/png"
)

// What the linker takes for the resources of a Windows program: an object file of one section, .rsrc, a tree of
// directories by kind, number and language, and one relocation for each leaf (Microsoft, "PE Format", "The .rsrc Section").
const (
	kindIcon, kindIcons = 3, 14
	english             = 0x409

	coffHead, sectionHead, relocation = 20, 40, 10
	directoryHead, directoryEntry     = 16, 8
	leafSize                          = 16
	below                             = 1 << 31 // an entry that leads to a directory
)

// machines are the codes of the object file and of a relocation without the base address, by architecture.
var machines = map[string]struct{ machine, relative uint16 }{"amd64": {0x8664, 3}, "arm64": {0xaa64, 2}}

// iconSizes are the sides of the icon, in pixels, that Windows asks for.
var iconSizes = []int{16, 24, 32, 48, 64, 256}

// resource is one leaf of the tree.
type resource struct {
	kind, number int
	data         []byte
}

// windowsIcon is an object file with the picture as the icon of the program.
func windowsIcon(picture []byte, arch string) ([]byte, error) {
	code, ok := machines[arch]
	if !ok {
		return nil, fmt.Errorf("no code is known for the architecture %q", arch)
	}
	large, err := png.Decode(bytes.NewReader(picture))
	if err != nil {
		return nil, err
	}
	group := binary.LittleEndian.AppendUint16(nil, 0)
	group = binary.LittleEndian.AppendUint16(group, 1) // icons
	group = binary.LittleEndian.AppendUint16(group, uint16(len(iconSizes)))
	var all []resource
	for i, side := range iconSizes {
		var b bytes.Buffer
		if err := png.Encode(&b, shrunk(large, side)); err != nil {
			return nil, err
		}
		all = append(all, resource{kindIcon, i + 1, b.Bytes()})
		const colours, planes, bits = 0, 1, 32
		group = append(group, byte(side), byte(side), colours, 0) // 256 is written as 0
		group = binary.LittleEndian.AppendUint16(group, planes)
		group = binary.LittleEndian.AppendUint16(group, bits)
		group = binary.LittleEndian.AppendUint32(group, uint32(b.Len())) //nolint:gosec // an icon is small
		group = binary.LittleEndian.AppendUint16(group, uint16(i+1))     //nolint:gosec // a few sizes
	}
	all = append(all, resource{kindIcons, 1, group})
	section, fixes := tree(all)
	return object(section, fixes, code.machine, code.relative), nil
}

// tree is the section of the resources, which are sorted by kind and number, and where the addresses in it are that the linker fills in.
func tree(all []resource) (section []byte, fixes []uint32) {
	var kinds [][]resource
	for i, r := range all {
		if i == 0 || r.kind != all[i-1].kind {
			kinds = append(kinds, nil)
		}
		kinds[len(kinds)-1] = append(kinds[len(kinds)-1], r)
	}
	le := binary.LittleEndian
	directory := func(entries int) {
		section = append(section, make([]byte, directoryHead-2)...)
		section = le.AppendUint16(section, uint16(entries)) //nolint:gosec // a few
	}
	entry := func(id int, at uint32) {
		section = le.AppendUint32(section, uint32(id)) //nolint:gosec // small
		section = le.AppendUint32(section, at)
	}
	size := func(entries int) uint32 { return uint32(directoryHead + directoryEntry*entries) } //nolint:gosec // a few
	// By kind, then each kind's directory by number, then one directory a resource with its language, then leaves, then data.
	at := size(len(kinds))
	directory(len(kinds))
	for _, k := range kinds {
		entry(k[0].kind, below|at)
		at += size(len(k))
	}
	for _, k := range kinds {
		directory(len(k))
		for _, r := range k {
			entry(r.number, below|at)
			at += size(1)
		}
	}
	for range all {
		directory(1)
		entry(english, at)
		at += leafSize
	}
	for _, r := range all {
		at = (at + 7) &^ 7
		fixes = append(fixes, uint32(len(section))) //nolint:gosec // small
		section = le.AppendUint32(section, at)
		section = le.AppendUint32(section, uint32(len(r.data))) //nolint:gosec // small
		section = append(section, make([]byte, leafSize-8)...)
		at += uint32(len(r.data)) //nolint:gosec // small
	}
	for _, r := range all {
		section = append(section, make([]byte, (8-len(section)%8)%8)...)
		section = append(section, r.data...)
	}
	return section, fixes
}

// object is an object file of that section.
func object(section []byte, fixes []uint32, machine, relative uint16) []byte {
	le := binary.LittleEndian
	name := []byte(".rsrc\x00\x00\x00")
	u32 := func(b []byte, all ...int) []byte {
		for _, x := range all {
			b = le.AppendUint32(b, uint32(x)) //nolint:gosec // small
		}
		return b
	}
	raw := coffHead + sectionHead
	relocations := raw + len(section)
	symbols := relocations + relocation*len(fixes)
	b := le.AppendUint16(nil, machine)
	b = le.AppendUint16(b, 1)      // section
	b = u32(b, 0, symbols, 1)      // no date; one symbol
	b = append(b, 0, 0, 0, 0)      // no further head, nothing special
	b = append(b, name...)         // the section
	b = u32(b, 0, 0, len(section)) // its addresses are the linker's
	b = u32(b, raw, relocations, 0)
	b = le.AppendUint16(b, uint16(len(fixes))) //nolint:gosec // a few
	b = le.AppendUint16(b, 0)
	b = le.AppendUint32(b, 0x40000040) // data, to be read
	b = append(b, section...)
	for _, f := range fixes {
		b = le.AppendUint32(b, f)
		b = le.AppendUint32(b, 0) // the first symbol
		b = le.AppendUint16(b, relative)
	}
	b = append(b, name...) // the symbol
	b = u32(b, 0)
	b = le.AppendUint16(b, 1) // in the first section
	b = le.AppendUint16(b, 0)
	const static, more = 3, 0
	b = append(b, static, more)
	return u32(b, 4) // no long names
}

// shrunk is a picture of the side, each point the mean of those that it covers.
func shrunk(large image.Image, side int) image.Image {
	from := large.Bounds()
	small := image.NewNRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			var r, g, b, a, n uint64
			for v := from.Min.Y + y*from.Dy()/side; v < from.Min.Y+(y+1)*from.Dy()/side; v++ {
				for u := from.Min.X + x*from.Dx()/side; u < from.Min.X+(x+1)*from.Dx()/side; u++ {
					pr, pg, pb, pa := large.At(u, v).RGBA()
					r, g, b, a, n = r+uint64(pr), g+uint64(pg), b+uint64(pb), a+uint64(pa), n+1
				}
			}
			small.Set(x, y, color.RGBA64{uint16(r / n), uint16(g / n), uint16(b / n), uint16(a / n)}) //nolint:gosec // means of 16 bits
		}
	}
	return small
}
