package desk

import (
	"net/http"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"tuckup/kennel/book"
)

// The copies are reached from the history; one is looked into, which says what would change, and gone back to, which the
// history takes back.
func TestACopyIsLookedIntoGoneBackToAndTakenBack(t *testing.T) {
	r := opened(t)
	r.get("/copies").says("main", "There is none yet")
	was := r.state()
	r.change(func(s *book.State) { s.Kennel.Shows = nil; s.Kennel.Dogs[0].Owner = "R. Calloway" })
	now := r.state()
	if n := r.get("/history").Find(`main a[href="/copies"]`).Length(); n != 1 {
		t.Fatalf("%d links lead from the history to the copies", n)
	}
	list := r.get("/copies")
	link, _ := list.Find(`main li a`).First().Attr("href")
	if link != "/copies?copy=2027-01-04" || list.Find("form").Length() > 0 && list.Find(`button[value="restore"]`).Length() > 0 {
		t.Fatalf("the copy is at %q", link)
	}
	p := r.get(link)
	p.says("main", "It holds 2 dogs, 1 show, 0 lines of work, 1 change.")
	p.says("main", "new show Brackenmere on 2027-02-27")
	p.says("main", "changed dog Sorrel: owner R. Calloway -> ")
	if !reflect.DeepEqual(r.state(), now) {
		t.Error("looking changed the book")
	}
	form := p.form("main", "restore")
	r.change(func(s *book.State) { s.Kennel.Name = "Other" })
	if late := r.ask(http.MethodPost, "/copies", form); late.status != http.StatusConflict {
		t.Errorf("a form that comes late is answered with %d", late.status)
	}
	form = r.get(link).form("main", "restore")
	r.send("/copies", form).says(".said", "The book holds what the copy holds.")
	if got := r.state(); !reflect.DeepEqual(got, was) {
		t.Errorf("the book holds\n%+v\nnot\n%+v", got, was)
	}
	r.get(link).says("main", "there is nothing to go back to")
	h := r.get("/history")
	h.says("main", "went back to the copy of Mon 4 Jan")
	r.send("/history", h.form("main", "undo"))
	if got := r.state(); got.Kennel.Name != "Other" || len(got.Kennel.Shows) != 0 {
		t.Errorf("taken back it holds %+v", got.Kennel)
	}
}

func TestACopyThatIsNotThereOrDamagedIsRefused(t *testing.T) {
	r := opened(t)
	r.change(func(s *book.State) { s.Kennel.Name = "Other" })
	form := r.get("/copies?copy=2027-01-04").form("main", "restore")
	version := r.version()
	for _, name := range []string{"2027-01-05", "../book", "", "x"} {
		bad := map[string][]string{"version": form["version"], "do": {"restore"}, "copy": {name}}
		if p := r.ask(http.MethodPost, "/copies", bad); p.status != http.StatusNotFound {
			t.Errorf("%q is answered with %d", name, p.status)
		}
	}
	if p := r.ask(http.MethodGet, "/copies?copy=..%2Fbook", nil); p.status != http.StatusNotFound {
		t.Errorf("it is answered with %d", p.status)
	}
	file := filepath.Join(filepath.Dir(r.book.Path()), "backups", "book.db-2027-01-04.db")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(strings.ReplaceAll(string(data), "Sorrel", "Borrel")), 0o600); err != nil {
		t.Fatal(err)
	}
	if p := r.ask(http.MethodPost, "/copies", form); p.status == http.StatusSeeOther {
		t.Error("a damaged copy was gone back to")
	} else {
		p.says("main", "is not sound")
	}
	if r.version() != version {
		t.Error("something was changed")
	}
}

// Where the book could not be copied before a change, every page says so until it can.
func TestAMissingCopyIsSaid(t *testing.T) {
	r := opened(t)
	folder := filepath.Join(filepath.Dir(r.book.Path()), "backups")
	if err := os.WriteFile(folder, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	r.send("/history", r.get("/history").form("main", "undo")).says("main", "the book before it could not be copied")
	r.get("/string").says("main", "the book before it could not be copied")
	if err := os.Remove(folder); err != nil {
		t.Fatal(err)
	}
	r.hold = make(chan struct{}) // nothing is planned
	r.change(func(s *book.State) { s.Replace(twoDogs(), monday) })
	r.send("/history", r.get("/history").form("main", "undo"))
	if p := r.get("/string"); strings.Contains(p.body, "could not be copied") {
		t.Error("it still says that the book could not be copied")
	}
}
