package draw

import (
	"html/template"

	"tuckup/kennel"
)

// Dog is a hard-coated dog from the side with its areas filled by their state.
type Dog struct {
	ID, Title, Desc string
	ShortLegs       bool
	Areas           []AreaFill // those of the dog's pattern; others stay white and have no name
	Bare            bool       // nothing is known of the coat: the areas are tinted alike, and no state is explained
}

// AreaFill is how one area stands.
type AreaFill struct {
	Area  kennel.AreaName
	State kennel.State
	Title string // read out with the area
}

// tint fills the areas of a dog whose coat is not known.
const tint = "#dde8e1"

const (
	longHeight, shortHeight = 366.0, 336.0
	nameLine                = 13.0
	keyHeight               = 26.0
)

type areaPath struct {
	Path, Fill, Title string
}

type nameShape struct {
	X, Y, StateY float64
	Anchor       string
	Name, State  string
	Leads        []leadShape
}

type leadShape struct{ X, Y, ToX, ToY float64 }

type dogPicture struct {
	frame
	Trunk, Head         string
	Parts               [parts][]areaPath
	Wire                []leadShape
	EyeX, EyeY          float64
	Nose                string
	Names               []nameShape
	Key                 []legendItem
	TrunkClip, HeadClip string
}

// SVG draws the dog.
func (d Dog) SVG() (template.HTML, error) {
	across, down, height := bend(nil), bend(nil), longHeight
	if d.ShortLegs {
		across, down, height = shortAcross, shortDown, shortHeight
	}
	bent := func(q point) point { return point{across.of(q.x), down.of(q.y)} }
	all := func(ps []point) []point {
		moved := make([]point, len(ps))
		for i, q := range ps {
			moved[i] = bent(q)
		}
		return moved
	}
	p := dogPicture{
		frame: newFrame(d.ID, d.Title, d.Desc, height), Trunk: curve(all(trunk)), Head: curve(all(head)),
		Nose: curve(all(nose)), TrunkClip: d.ID + "-trunk", HeadClip: d.ID + "-head",
	}
	p.EyeX, p.EyeY = bent(eye).x, bent(eye).y
	for _, w := range wire {
		from, to := bent(w[0]), bent(w[1])
		p.Wire = append(p.Wire, leadShape{from.x, from.y, to.x, to.y})
	}
	for _, s := range shapes {
		fill, title := paper, ""
		if a, ok := d.area(s.area); ok {
			fill, title = p.use("c"+Letter(a.State), StateFill(a.State)), a.Title
			if d.Bare {
				fill = tint
			}
		}
		p.Parts[s.part] = append(p.Parts[s.part], areaPath{curve(all(s.edge)), fill, title})
	}
	for _, n := range names {
		a, ok := d.area(n.area)
		if !ok {
			continue
		}
		at, from := n.long, n.lead[0]
		if d.ShortLegs {
			at, from = n.short, n.lead[1]
		}
		shown := nameShape{X: at.x, Y: at.y, StateY: at.y + nameLine, Anchor: n.anchor, Name: string(a.Area), State: string(a.State)}
		for _, spot := range n.spots {
			to := bent(spot)
			shown.Leads = append(shown.Leads, leadShape{from.x, from.y, to.x, to.y})
		}
		p.Names = append(p.Names, shown)
	}
	if !d.Bare {
		p.Key = stateKey(&p.frame, height+6)
		p.Height = height + keyHeight
	}
	return picture("dog", p)
}

func (d Dog) area(a kennel.AreaName) (AreaFill, bool) {
	for _, f := range d.Areas {
		if f.Area == a {
			return f, true
		}
	}
	return AreaFill{}, false
}
