package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"tuckup/kennel"
)

// spotted is a picture with a red upper left corner.
func spotted(w, h int) *image.RGBA {
	p := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{0xff, 0xff, 0xff, 0xff}
			if x < w/4 && y < h/4 {
				c = color.RGBA{0xff, 0, 0, 0xff}
			}
			p.SetRGBA(x, y, c)
		}
	}
	return p
}

func jpegOf(t testing.TB, p image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, p, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// withExif puts a made-up Exif part into a JPEG: how it was held, and a place on the map.
func withExif(file []byte, how uint16) []byte {
	var t bytes.Buffer
	put := func(v any) { binary.Write(&t, binary.BigEndian, v) }
	t.WriteString("MM\x00*")
	put(uint32(8))
	put(uint16(3))
	for _, e := range []struct {
		tag, kind uint16
		n, value  uint32
	}{{0x010f, 2, 8, 50}, {0x0112, 3, 1, uint32(how) << 16}, {0x8825, 4, 1, 58}} {
		put(e.tag)
		put(e.kind)
		put(e.n)
		put(e.value)
	}
	put(uint32(0))
	t.WriteString("MAKERXYZ")
	put(uint16(2)) // the directory of the place
	t.WriteString("GPSLATITUDE-54-12-33")
	part := append([]byte("Exif\x00\x00"), t.Bytes()...)
	out := append([]byte{0xff, 0xd8, 0xff, 0xe1, byte((len(part) + 2) >> 8), byte(len(part) + 2)}, part...)
	return append(out, file[2:]...)
}

func red(c color.Color) bool {
	r, g, b, _ := c.RGBA()
	return r > 0xc000 && g < 0x6000 && b < 0x6000
}

// Nothing of what a camera writes beside the pixels is kept, and the picture is the right way up.
func TestNoPlaceIsKeptAndThePictureIsUpright(t *testing.T) {
	file := jpegOf(t, spotted(80, 40))
	corners := map[uint16][2]int{1: {0, 0}, 2: {1, 0}, 3: {1, 1}, 4: {0, 1}, 5: {0, 0}, 6: {1, 0}, 7: {1, 1}, 8: {0, 1}}
	for how, corner := range corners {
		tagged := withExif(file, how)
		if !bytes.Contains(tagged, []byte("GPSLATITUDE")) {
			t.Fatal("the file has no place in it")
		}
		p, err := Read("dog.jpg", tagged)
		if err != nil {
			t.Fatal(err)
		}
		for _, left := range []string{"Exif", "GPSLATITUDE", "MAKERXYZ", "MM\x00*"} {
			if bytes.Contains(p.Data, []byte(left)) {
				t.Errorf("held %d: %q is kept", how, left)
			}
		}
		back, err := jpeg.Decode(bytes.NewReader(p.Data))
		if err != nil {
			t.Fatal(err)
		}
		size := back.Bounds().Size()
		if wide := how < 5; wide != (size.X == 80) {
			t.Errorf("held %d: it is %v", how, size)
		}
		if at := back.At(corner[0]*(size.X-1), corner[1]*(size.Y-1)); !red(at) {
			t.Errorf("held %d: the corner is %v", how, at)
		}
		if Digest(p.Data) != p.Digest || !IsDigest(p.Digest) {
			t.Errorf("the digest is %q", p.Digest)
		}
	}
}

// A large picture is made smaller, one that can be seen through is on white, and the same file gives the same bytes.
func TestWhatIsKeptIsBounded(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewNRGBA(image.Rect(0, 0, 4000, 30))); err != nil {
		t.Fatal(err)
	}
	p, err := Read("wide.png", b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	back, err := jpeg.Decode(bytes.NewReader(p.Data))
	if err != nil || back.Bounds().Dx() != mostSide || back.Bounds().Dy() != 12 {
		t.Fatalf("%v, %v", back.Bounds(), err)
	}
	if r, _, _, _ := back.At(5, 5).RGBA(); r < 0xf000 {
		t.Error("what can be seen through is not white")
	}
	again, err := Read("again.png", b.Bytes())
	if err != nil || again.Digest != p.Digest {
		t.Errorf("again it is %s, not %s (%v)", again.Digest, p.Digest, err)
	}
}

// bomb is a PNG whose head says that it is huge.
func bomb() []byte {
	var b bytes.Buffer
	_ = png.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 8)))
	data := b.Bytes()
	binary.BigEndian.PutUint32(data[16:], 60000)
	binary.BigEndian.PutUint32(data[20:], 60000)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

func TestWhatIsNoPictureIsRefused(t *testing.T) {
	good := jpegOf(t, spotted(40, 40))
	if c, _, err := image.DecodeConfig(bytes.NewReader(bomb())); err != nil || c.Width != 60000 {
		t.Fatalf("the bomb is none: %+v, %v", c, err)
	}
	for name, data := range map[string][]byte{
		"nothing": nil, "words": []byte("a picture"), "page": []byte("<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"), "gif": []byte("GIF89a\x01\x00\x01\x00\x00\x00\x00;"),
		"cut": good[:len(good)/2], "head alone": good[:20], "bomb": bomb(), "long": append(bytes.Clone(good), make([]byte, Largest)...),
	} {
		p, err := Read(name, data)
		var in *kennel.InputError
		if !errors.As(err, &in) || in.Field != "photo" || in.Try == "" || len(p.Data) > 0 {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, name := range []string{"", "..", strings.Repeat("a", 63), strings.Repeat("g", 64), strings.Repeat("A", 64), "../" + strings.Repeat("a", 61)} {
		if IsDigest(name) {
			t.Errorf("%q passes for a digest", name)
		}
	}
}

func FuzzRead(f *testing.F) {
	good := jpegOf(f, spotted(16, 16))
	f.Add(good)
	f.Add(withExif(good, 6))
	f.Add(bomb())
	f.Fuzz(func(t *testing.T, data []byte) {
		orientation(data)
		p, err := Read("x", data)
		if err == nil {
			if _, err := jpeg.DecodeConfig(bytes.NewReader(p.Data)); err != nil {
				t.Fatal(err)
			}
		}
	})
}
