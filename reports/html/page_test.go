package html

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"tuckup/reports/sample"
	"tuckup/reports/say"
)

// voids are the elements that have no end tag.
var voids = []atom.Atom{atom.Meta, atom.Br, atom.Hr, atom.Img, atom.Input, atom.Link, atom.Wbr, atom.Col}

// badHTML says what is wrong with a page: tags that do not match, identifiers that are there twice or that a
// reference does not find, elements that run or fetch something, pictures and tables without a name, headings that
// leave out a level, a page without its language or title.
func badHTML(page []byte) (wrong []string) {
	say := func(s string) { wrong = append(wrong, s) }
	if !bytes.HasPrefix(page, []byte("<!DOCTYPE html>\n")) {
		say("no doctype")
	}
	var open []string
	for z := html.NewTokenizer(bytes.NewReader(page)); ; {
		kind := z.Next()
		if kind == html.ErrorToken {
			if !errors.Is(z.Err(), io.EOF) {
				say(z.Err().Error())
			}
			break
		}
		t := z.Token()
		if slices.Contains(voids, t.DataAtom) {
			continue
		}
		switch kind {
		case html.StartTagToken:
			open = append(open, t.Data)
		case html.EndTagToken:
			if len(open) == 0 || open[len(open)-1] != t.Data {
				say("</" + t.Data + "> closes what is not open")
				return wrong
			}
			open = open[:len(open)-1]
		}
	}
	if len(open) > 0 {
		say("never closed: " + strings.Join(open, " "))
	}
	doc, err := html.Parse(bytes.NewReader(page))
	if err != nil {
		return append(wrong, err.Error())
	}
	ids, refs, level, titles := map[string]bool{}, []string{}, 0, 0
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		a := attributes(n)
		if id := a["id"]; id != "" {
			if ids[id] {
				say("twice: id " + id)
			}
			ids[id] = true
		}
		for _, key := range []string{"href", "aria-labelledby", "aria-describedby", "fill"} {
			v := a[key]
			switch {
			case strings.HasPrefix(v, "#"):
				if key == "href" {
					refs = append(refs, v[1:])
				}
			case strings.HasPrefix(v, "url(#"):
				refs = append(refs, strings.TrimSuffix(v[5:], ")"))
			case key == "href" && v != "":
				say("leads out of the page: " + v)
			case strings.HasPrefix(key, "aria-") && v != "":
				refs = append(refs, strings.Fields(v)...)
			}
		}
		for key := range a {
			if strings.HasPrefix(key, "on") || key == "src" || key == "srcdoc" || key == "style" {
				say("attribute " + key)
			}
		}
		switch n.DataAtom {
		case atom.Script, atom.Img, atom.Iframe, atom.Object, atom.Embed, atom.Link, atom.Base, atom.Form:
			say("element " + n.Data)
		case atom.Html:
			if a["lang"] == "" {
				say("no language")
			}
		case atom.Title:
			if n.Namespace == "" {
				titles++
			}
		case atom.Th:
			if a["scope"] == "" {
				say("a heading of a table without scope")
			}
		case atom.Table:
			if first := firstElement(n); first == nil || first.DataAtom != atom.Caption || writtenIn(first) == "" {
				say("a table without a caption")
			}
		case atom.Svg:
			if a["role"] != "img" || firstElement(n) == nil || firstElement(n).Data != "title" {
				say("a picture without a name")
			}
		case atom.H1, atom.H2, atom.H3, atom.H4:
			l := int(n.Data[1] - '0')
			if l > level+1 {
				say("the heading " + writtenIn(n) + " leaves out a level")
			}
			level = l
		}
	}
	if titles != 1 {
		say("not one title")
	}
	for _, r := range refs {
		if !ids[r] {
			say("nothing has the id " + r)
		}
	}
	return wrong
}

func attributes(n *html.Node) map[string]string {
	m := map[string]string{}
	for _, a := range n.Attr {
		m[a.Key] = a.Val
	}
	return m
}

func firstElement(n *html.Node) *html.Node {
	for c := range n.ChildNodes() {
		if c.Type == html.ElementNode {
			return c
		}
	}
	return nil
}

// writtenIn is all that is written inside a node.
func writtenIn(n *html.Node) string {
	var b strings.Builder
	for c := range n.Descendants() {
		if c.Type == html.TextNode {
			b.WriteString(c.Data)
		}
	}
	return b.String()
}

// frameWith is a page that holds a name wherever a page can hold one.
func frameWith(t *testing.T, name string) []byte {
	t.Helper()
	table := newTable("What "+name+" had", "dog", "#minutes")
	table.add(wordCell(name).with(name), figureCell("1.5", 1.5))
	table.total(wordCell("all"), figureCell("1.5", 1.5))
	var body fragments
	body.heading("about " + name)
	body.add(table.html())
	body.add(paragraphs(name))
	body.add(bullets([]string{name, name}))
	body.add(factList(fact{name, name}))
	if body.err != nil {
		t.Fatal(body.err)
	}
	var b bytes.Buffer
	head := pageHead{kennel: name, title: "About " + name, note: name, contents: true, foot: []string{name}}
	if err := writePage(&b, head, section{id: "one", title: name + " one", note: name, body: body.html()}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestAPageIsValidWhateverTheNames(t *testing.T) {
	for _, name := range sample.HostileNames {
		page := frameWith(t, name)
		if wrong := badHTML(page); len(wrong) > 0 {
			t.Errorf("with %q: %s", name, strings.Join(wrong, "; "))
		}
		if bytes.ContainsAny(page, "\x1b\u202e\x07\x00") {
			t.Errorf("with %q a control character is in the page", name)
		}
		doc, err := html.Parse(bytes.NewReader(page))
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(writtenIn(doc), say.Plain(name)); n < 10 && name != "" {
			t.Errorf("%q is told %d times, want at least 10", name, n)
		}
	}
}

// A check that never finds anything is none.
func TestBadPagesAreFound(t *testing.T) {
	good := string(frameWith(t, "Sorrel"))
	for what, change := range map[string][2]string{
		"a script":           {"</main>", "<script>1</script></main>"},
		"an unclosed tag":    {"</main>", "<p></main>"},
		"a handler":          {"<main>", `<main onclick="x()">`},
		"a picture unnamed":  {"</main>", "<svg></svg></main>"},
		"a lost reference":   {`href="#one"`, `href="#two"`},
		"an address outside": {`href="#one"`, `href="https://example.org"`},
		"an id twice":        {"<main>", `<main id="one">`},
		"no scope":           {` scope="row"`, ``},
		"no caption":         {"caption", "p"},
		"a level left out":   {"<h3>about", "<h4>about"},
		"no language":        {` lang="en"`, ""},
		"no doctype":         {"<!DOCTYPE html>", ""},
	} {
		if bad := strings.ReplaceAll(good, change[0], change[1]); bad == good || len(badHTML([]byte(bad))) == 0 {
			t.Errorf("%s is not found", what)
		}
	}
}
