package kennel

// Session is one stretch of work on one dog that was agreed: on a sheet that was handed out, or by the handler's own
// choice.
type Session struct {
	Dog     string
	On      Date
	Start   Clock
	Minutes Minutes  // with set-up; 0 = not told
	Hands   string   // who works
	Areas   []Pulled // what is to be pulled, in working order
	Pinned  bool     // the handler's own choice: never moved
}

// Pulled is a share of one area that is pulled, or was.
type Pulled struct {
	Area  AreaName
	Share Share
}

// lookPart is the largest part of a dog's longest session that goes into looking it over: a pup that stands for half an hour is not looked at
// for most of it. Common practice.
const lookPart = 0.2

// SessionSetUp is what a session of the dog takes beside the pulling, where its longest is of so many minutes: setting it up, and looking
// over the whole dog. 0 is a session that nobody has bounded.
func (d Dog) SessionSetUp(p Pattern, longest Minutes) Minutes {
	look := Minutes(p.Look.Value)
	if longest > 0 {
		look = min(look, lookPart*longest)
	}
	return d.Table.SetUp + look
}
