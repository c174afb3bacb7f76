package desk

import (
	"bytes"
	"html"
	"regexp"
	"slices"

	nethtml "golang.org/x/net/html"

	"tuckup/kennel"
	"tuckup/reports/say"
)

// reader is whoever reads the pages: the order of dates, and the names that look like one.
type reader struct {
	dates kennel.DateOrder
	names []string
}

// reader is the reader of a look.
func (l look) reader() reader {
	k := l.state.Kennel
	r := reader{dates: k.Dates}
	if r.dates == "" {
		return r
	}
	add := func(name string) {
		if say.HasDate(name) && !slices.Contains(r.names, say.Plain(name)) {
			r.names = append(r.names, say.Plain(name))
		}
	}
	add(k.Name)
	for _, h := range k.Hands {
		add(h.Name)
	}
	for _, d := range k.Dogs {
		add(d.Name)
		add(d.RingName)
		add(d.Owner)
	}
	for _, s := range k.Shows {
		add(s.Name)
	}
	return r
}

// reader is whoever reads the book as it was looked at last.
func (d *Desk) reader() reader {
	d.shelf.mu.Lock()
	defer d.shelf.mu.Unlock()
	return look{state: d.shelf.state}.reader()
}

// readOut are the attributes that people read or hear.
var readOut = regexp.MustCompile(`( (?:aria-label|title|alt|data-not|data-is)=")([^"]*)"`)

// page is a page with its dates in the reader's order: in all that is read or heard, and in nothing that is typed, sent or linked to.
func (r reader) page(written []byte) []byte {
	if r.dates == "" {
		return written
	}
	var out bytes.Buffer
	words := func(text string) {
		out.WriteString(nethtml.EscapeString(say.InOrder(html.UnescapeString(text), r.dates, r.names)))
	}
	t := nethtml.NewTokenizer(bytes.NewReader(written))
	as := "" // the element whose text is left as it is
	for {
		switch kind := t.Next(); kind {
		case nethtml.ErrorToken:
			return out.Bytes() // the end: what is read is in memory
		case nethtml.TextToken:
			if as == "" {
				words(string(t.Raw()))
			} else {
				out.Write(t.Raw())
			}
		case nethtml.StartTagToken, nethtml.SelfClosingTagToken:
			raw := string(t.Raw()) // before its name is asked for, which changes it
			done := 0
			for _, at := range readOut.FindAllStringSubmatchIndex(raw, -1) {
				out.WriteString(raw[done:at[4]])
				words(raw[at[4]:at[5]])
				done = at[5]
			}
			out.WriteString(raw[done:])
			if name, _ := t.TagName(); kind == nethtml.StartTagToken && slices.Contains([]string{"script", "style", "textarea", "code", "pre"}, string(name)) {
				as = string(name)
			}
		case nethtml.EndTagToken:
			out.Write(t.Raw())
			if name, _ := t.TagName(); string(name) == as {
				as = ""
			}
		default:
			out.Write(t.Raw())
		}
	}
}
