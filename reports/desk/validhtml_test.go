package desk

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"testing"

	nethtml "golang.org/x/net/html"
)

// Elements that have no end, that may stand only in certain others, and that hold words only or stand only outside of what does.
var (
	voids  = []string{"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
	onlyIn = map[string][]string{
		"li": {"ul", "ol", "menu"}, "dt": {"dl", "div"}, "dd": {"dl", "div"}, "tr": {"thead", "tbody", "tfoot", "table"}, "td": {"tr"}, "th": {"tr"}, "thead": {"table"}, "tbody": {"table"},
		"caption": {"table"}, "option": {"select", "datalist", "optgroup"}, "legend": {"fieldset"}, "summary": {"details"}, "figcaption": {"figure"},
	}
	onlyHold = map[string][]string{
		"ul": {"li"}, "ol": {"li"}, "select": {"option", "optgroup"}, "tr": {"td", "th"}, "table": {"caption", "colgroup", "thead", "tbody", "tfoot", "tr"}, "thead": {"tr"}, "tbody": {"tr"},
	}
	words  = []string{"p", "h1", "h2", "h3", "h4", "span", "b", "strong", "em", "small", "label", "button", "code", "time", "del", "ins", "dt", "output", "legend", "caption"}
	blocks = []string{
		"div", "p", "ul", "ol", "dl", "table", "form", "section", "article", "aside", "header", "footer", "main", "nav", "fieldset", "details", "figure", "blockquote", "pre", "hr", "h1", "h2", "h3", "h4",
	}
	pressed = []string{"a", "button", "input", "select", "textarea", "details", "label"}
)

// faults are what is wrong with a page as HTML: tags that are not closed in their order, elements where they may not stand, names that come
// twice, and what leads to a name that is not there.
func faults(page string) (all []string) {
	add := func(format string, with ...any) { all = append(all, fmt.Sprintf(format, with...)) }
	var open, labels []string
	ids, leads, fields := map[string]bool{}, map[string]string{}, map[string]bool{}
	t := nethtml.NewTokenizer(strings.NewReader(page))
	for {
		kind := t.Next()
		if kind == nethtml.ErrorToken {
			break
		}
		token := t.Token()
		name := token.Data
		switch kind {
		case nethtml.DoctypeToken, nethtml.CommentToken:
		case nethtml.TextToken:
			if n := len(open); n > 0 && strings.TrimSpace(name) != "" && slices.Contains([]string{"ul", "ol", "table", "thead", "tbody", "tr", "select", "dl"}, open[n-1]) {
				add("words in a %s: %.40q", open[n-1], name)
			}
		case nethtml.EndTagToken:
			if len(open) == 0 || open[len(open)-1] != name {
				add("</%s> closes %v", name, open)
				return all
			}
			open = open[:len(open)-1]
		case nethtml.StartTagToken, nethtml.SelfClosingTagToken:
			parent := ""
			if len(open) > 0 {
				parent = open[len(open)-1]
			}
			if in := onlyIn[name]; in != nil && !slices.Contains(in, parent) {
				add("<%s> in <%s>", name, parent)
			}
			if hold := onlyHold[parent]; hold != nil && !slices.Contains(hold, name) {
				add("<%s> in <%s>", name, parent)
			}
			for _, o := range open {
				if slices.Contains(words, o) && slices.Contains(blocks, name) {
					add("<%s> in <%s>, which holds words", name, o)
				}
				if (o == "a" || o == "button") && slices.Contains(pressed, name) || o == "form" && name == "form" || o == "label" && name == "label" {
					add("<%s> in <%s>", name, o)
				}
			}
			seen := map[string]bool{}
			for _, a := range token.Attr {
				if seen[a.Key] {
					add("%s comes twice in %s", a.Key, token)
				}
				seen[a.Key] = true
				switch a.Key {
				case "id":
					if ids[a.Val] || a.Val == "" || strings.ContainsAny(a.Val, " \t\n") {
						add("the id %q comes twice, or can't be one", a.Val)
					}
					ids[a.Val] = true
					if slices.Contains([]string{"input", "select", "textarea", "output", "meter", "progress", "button"}, name) {
						fields[a.Val] = true
					}
				case "for":
					labels = append(labels, a.Val)
				case "aria-labelledby", "aria-describedby", "aria-controls", "list", "form":
					for id := range strings.FieldsSeq(a.Val) {
						leads[id] = a.Key
					}
				case "href":
					if id, found := strings.CutPrefix(a.Val, "#"); found && id != "" {
						leads[id] = a.Key
					}
				}
			}
			switch {
			case name == "img" && !seen["alt"]:
				add("a picture without words: %s", token)
			case name == "button" && seen["href"], name == "a" && seen["disabled"]:
				add("%s has what is not its own", token)
			}
			if kind == nethtml.StartTagToken && !slices.Contains(voids, name) {
				open = append(open, name)
			}
		}
	}
	if len(open) > 0 {
		add("not closed: %v", open)
	}
	for _, id := range labels {
		if !fields[id] {
			add("a label is for %q, which is no field", id)
		}
	}
	for id, key := range leads {
		if !ids[id] {
			add("%s leads to %q, which is not there", key, id)
		}
	}
	return all
}

func TestEveryPageIsValidHTML(t *testing.T) {
	for what, page := range map[string]string{
		"not closed": "<main><p>x</main>", "a list in words": "<p><ul></ul></p>", "an id twice": `<i id="a"></i><b id="a"></b>`, "a label for nothing": `<label for="a">x</label>`,
		"a form in a form": "<form><form></form></form>", "a link that leads nowhere": `<a href="#a">x</a>`, "a button in a link": `<a><button>x</button></a>`, "words in a list": "<ul>x</ul>",
	} {
		if len(faults(page)) == 0 {
			t.Errorf("nothing is found where there is %s", what)
		}
	}
	k := twoDogs()
	k.Dogs[0].Owner = "R. Calloway"
	r := inUseOf(t, k)
	for _, path := range []string{
		"/", "/?sort=owner", "/today", "/today?day=2027-01-05", "/work", "/work?dog=Sorrel", "/week", "/week?of=2027-02-22", "/string", "/dogs/Sorrel", "/shows", "/shows?show=" + url.QueryEscape(showKey(k.Shows[0])),
		"/hours", "/workload", "/papers", "/account", "/account?rate=much", "/letter?owner=R.+Calloway&month=2027-01", "/home/Sorrel?from=2027-01-10&to=2027-01-20", "/history", "/copies", "/plan", "/setup",
		"/patterns", "/patterns/border-terrier", "/help", "/why", "/begin/kennel", "/begin/dogs", "/begin/shows", "/begin/plan", "/begin/paper", "/nowhere",
		"/papers/sheet.html", "/papers/season.html", "/papers/readiness.html", "/papers/workload.html",
	} {
		p := r.ask("GET", path, nil)
		if p.body == "" || p.status == 500 {
			t.Errorf("%s: %d", path, p.status)
		}
		for _, fault := range faults(p.body) {
			t.Errorf("%s: %s", path, fault)
		}
	}
	bad := r.get("/dogs/Sorrel").form("main", "facts")
	bad.Set("born", "soon")
	for _, fault := range faults(r.ask("POST", "/dogs/Sorrel", bad).body) {
		t.Errorf("a form that comes back: %s", fault)
	}
}
