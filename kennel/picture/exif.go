package picture

import (
	"bytes"
	"encoding/binary"
)

// orientation is how the camera was held, as the Exif part of a JPEG has it; 1, upright, where nothing is said or it can't be read.
func orientation(data []byte) int {
	const upright = 1
	for i := 2; i+4 <= len(data) && data[i] == 0xff; {
		marker, size := data[i+1], int(binary.BigEndian.Uint16(data[i+2:]))
		if marker == 0xda || size < 2 || i+2+size > len(data) { // the pixels begin, or the part runs out of the file
			break
		}
		if tiff, ok := bytes.CutPrefix(data[i+4:i+2+size], []byte("Exif\x00\x00")); ok && marker == 0xe1 {
			return orientationIn(tiff)
		}
		i += 2 + size
	}
	return upright
}

// orientationIn reads it from the first directory of a TIFF structure.
func orientationIn(tiff []byte) int {
	const (
		upright  = 1
		head     = 8
		entry    = 12
		tag      = 0x0112
		aShort   = 3
		lastKind = 8
	)
	if len(tiff) < head {
		return upright
	}
	var order binary.ByteOrder = binary.BigEndian
	if string(tiff[:2]) == "II" {
		order = binary.LittleEndian
	}
	at := int64(order.Uint32(tiff[4:]))
	if at < head || at+2 > int64(len(tiff)) {
		return upright
	}
	n := int64(order.Uint16(tiff[at:]))
	for k := range n {
		e := at + 2 + k*entry
		if e+entry > int64(len(tiff)) {
			break
		}
		if order.Uint16(tiff[e:]) == tag && order.Uint16(tiff[e+2:]) == aShort {
			if how := int(order.Uint16(tiff[e+8:])); how >= upright && how <= lastKind {
				return how
			}
		}
	}
	return upright
}
