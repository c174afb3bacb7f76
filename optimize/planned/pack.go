package planned

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
	"slices"

	"github.com/fxamacker/cbor/v2"

	"tuckup/kennel"
)

// A record of a plan is a line that says its form, then two parts, each behind its lengths in bytes, packed and unpacked: what reports show, and the season
// in numbers, which only the next plan begins with. Each part is CBOR in its deterministic form (RFC 8949, 4.2.1), compressed (RFC 1950,
// whose checksum finds damage). Fields go by name: one that a record does not have is as if it had not been set.
const (
	packHead  = "tuckup plan "
	packForm  = "1\n" // another where an older record would be read wrongly
	packLevel = zlib.BestSpeed
	mostParts = 64 << 20 // bytes that a part may unpack to: hundreds of times a string of sixty
)

// doneBefore is how many days before the plan's first Monday work is kept: more than the free days that any setting asks for.
const doneBefore = 14

// packed is what reports show of a plan.
type packed struct {
	Result Result
	Solved bool // the season in numbers follows
}

// Pack is the plan as a record for Unpack: all that reports show and that the next plan begins with. The same plan gives the same bytes.
// Of the patterns it keeps those of the plan's dogs, of the work done that of the plan's first week and the two before; what belongs to one run
// (Options.Still) is left out.
func (r Result) Pack() ([]byte, error) {
	solved := r.Solved
	r.Solved, r.Options = nil, r.Options.Still()
	r.Patterns = usedBy(r.Kennel, r.Patterns)
	r.Options.Done = slices.DeleteFunc(slices.Clone(r.Options.Done), func(w kennel.Work) bool { return w.On < r.Week0.AddDays(-doneBefore) })
	out := []byte(packHead + packForm)
	var err error
	if out, err = packPart(out, packed{r, solved != nil}); err != nil || solved == nil {
		return out, err
	}
	return packPart(out, solved)
}

// Unpack reads a record that Pack wrote. The error is a *kennel.InputError where the record is damaged or of a form that this program
// does not read; planning again is the way out.
func Unpack(record []byte) (Result, error) {
	p, rest, err := unpackShown(record)
	if err != nil || !p.Solved {
		return p.Result, err
	}
	p.Result.Solved = &Solved{}
	if _, err := unpackPart(rest, p.Result.Solved); err != nil {
		return Result{}, err
	}
	return p.Result, nil
}

// UnpackShown is Unpack without Solved, for who shows the plan and makes none: it takes half the time.
func UnpackShown(record []byte) (Result, error) {
	p, _, err := unpackShown(record)
	return p.Result, err
}

func unpackShown(record []byte) (p packed, rest []byte, err error) {
	body, ours := bytes.CutPrefix(record, []byte(packHead))
	if !ours {
		return p, nil, unreadable("is damaged")
	}
	if body, ours = bytes.CutPrefix(body, []byte(packForm)); !ours {
		return p, nil, unreadable("was written by another version of tuckup, in a form that this one does not read")
	}
	rest, err = unpackPart(body, &p)
	if err != nil {
		return packed{}, nil, err
	}
	return p, rest, nil
}

func packPart(out []byte, v any) ([]byte, error) {
	data, err := packing.Marshal(v)
	if err != nil {
		return nil, fmt.Errorf("the plan can't be kept: %w", err)
	}
	var b bytes.Buffer
	w, err := zlib.NewWriterLevel(&b, packLevel)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	out = binary.BigEndian.AppendUint32(out, uint32(b.Len()))
	out = binary.BigEndian.AppendUint32(out, uint32(len(data)))
	return append(out, b.Bytes()...), nil
}

func unpackPart(record []byte, into any) (rest []byte, err error) {
	const size = 8
	if len(record) < size {
		return nil, unreadable("is damaged")
	}
	length, unpacked := binary.BigEndian.Uint32(record), binary.BigEndian.Uint32(record[size/2:])
	record = record[size:]
	if uint64(length) > uint64(len(record)) || unpacked > mostParts {
		return nil, unreadable("is damaged")
	}
	data := make([]byte, unpacked)
	r, err := zlib.NewReader(bytes.NewReader(record[:length]))
	if err == nil {
		_, err = io.ReadFull(r, data)
	}
	if err == nil {
		_, err = io.Copy(io.Discard, r) // its checksum comes behind the last byte
	}
	if err == nil {
		err = unpacking.Unmarshal(data, into)
	}
	if err != nil {
		return nil, unreadable("is damaged")
	}
	return record[length:], nil
}

func unreadable(what string) error {
	return &kennel.InputError{Field: "plan in use", What: what, Try: "tuckup plan --accept to plan again"}
}

var (
	packing   = must(cbor.CoreDetEncOptions().EncMode())
	unpacking = must(cbor.DecOptions{MaxArrayElements: 1 << 24, MaxMapPairs: 1 << 20}.DecMode())
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err) // the options above are wrong
	}
	return v
}
