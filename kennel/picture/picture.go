// Package picture makes of a picture that somebody brings one that is safe to keep: its pixels drawn again as a JPEG of bounded size, the right
// way up, without anything else that the file had in it: no place, no camera, no preview.
package picture

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	_ "image/png" // pictures are taken in as PNG too
	"math"

	"tuckup/kennel"
)

// The limits of what is taken in and of what is kept. They are this program's own: a phone's picture passes, and a season of them stays small.
const (
	Largest    = 24 << 20 // bytes of a file
	mostPixels = 64e6     // of a picture that is opened
	mostSide   = 1600     // pixels of the longer side of what is kept
	quality    = 85       // of the JPEG that is kept
)

// Picture is a picture as it is kept.
type Picture struct {
	Data   []byte // a JPEG
	Digest string // SHA-256 of Data in hexadecimal
}

const tryPicture = "a picture as a JPEG or PNG file"

// Read makes a picture of a file. The error is a *kennel.InputError of the field photo.
func Read(name string, data []byte) (Picture, error) {
	wrong := func(what, try string) (Picture, error) {
		return Picture{}, &kennel.InputError{Field: "photo", Value: kennel.Shortened(name), What: what, Try: try}
	}
	if len(data) > Largest {
		return wrong(fmt.Sprintf("is larger than %d MB", Largest>>20), "a smaller picture")
	}
	c, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || kind != "jpeg" && kind != "png" {
		return wrong("is not a picture that can be read", tryPicture)
	}
	if c.Width < 1 || c.Height < 1 || float64(c.Width)*float64(c.Height) > mostPixels {
		return wrong(fmt.Sprintf("has %d by %d pixels", c.Width, c.Height), fmt.Sprintf("at most %.0f million pixels", mostPixels/1e6))
	}
	src, err := decode(data)
	if err != nil {
		return wrong("is not a picture that can be read", tryPicture)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, turned(shrunk(src), orientation(data)), &jpeg.Options{Quality: quality}); err != nil {
		return wrong("can't be kept as a picture", tryPicture)
	}
	return Picture{b.Bytes(), Digest(b.Bytes())}, nil
}

// decode reads the pixels; what goes wrong inside the reader of a hostile file is an error like any other.
func decode(data []byte) (src image.Image, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the picture can't be read: %v", p)
		}
	}()
	src, _, err = image.Decode(bytes.NewReader(data))
	return src, err
}

// Digest is the name that a picture is kept under.
func Digest(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// IsDigest reports whether a name is one of a picture.
func IsDigest(name string) bool {
	raw, err := hex.DecodeString(name)
	return err == nil && len(raw) == sha256.Size && hex.EncodeToString(raw) == name
}

// shrunk is the picture on white, each of its pixels the mean of those that it stands for, no side longer than is kept.
func shrunk(src image.Image) *image.RGBA {
	in := src.Bounds()
	part := math.Min(1, mostSide/float64(max(in.Dx(), in.Dy())))
	w, h := max(1, int(math.Round(part*float64(in.Dx())))), max(1, int(math.Round(part*float64(in.Dy()))))
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		top, bottom := in.Min.Y+y*in.Dy()/h, in.Min.Y+max((y+1)*in.Dy()/h, y*in.Dy()/h+1)
		for x := range w {
			left, right := in.Min.X+x*in.Dx()/w, in.Min.X+max((x+1)*in.Dx()/w, x*in.Dx()/w+1)
			var r, g, b, n uint64
			for v := top; v < bottom; v++ {
				for u := left; u < right; u++ {
					pr, pg, pb, pa := src.At(u, v).RGBA()
					r, g, b, n = r+uint64(pr+0xffff-pa), g+uint64(pg+0xffff-pa), b+uint64(pb+0xffff-pa), n+1
				}
			}
			out.SetRGBA(x, y, color.RGBA{uint8(r / n >> 8), uint8(g / n >> 8), uint8(b / n >> 8), 0xff}) //nolint:gosec // a mean of 16 bits
		}
	}
	return out
}

// turned is the picture the right way up, as a camera noted how it was held: 1 to 8, as Exif has it.
func turned(p *image.RGBA, how int) *image.RGBA {
	if how < 2 || how > 8 {
		return p
	}
	w, h := p.Rect.Dx(), p.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if how >= 5 {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			u, v := x, y
			switch how {
			case 2:
				u = w - 1 - x
			case 3:
				u, v = w-1-x, h-1-y
			case 4:
				v = h - 1 - y
			case 5:
				u, v = y, x
			case 6:
				u, v = h-1-y, x
			case 7:
				u, v = h-1-y, w-1-x
			case 8:
				u, v = y, w-1-x
			}
			out.SetRGBA(u, v, p.RGBAAt(x, y))
		}
	}
	return out
}
