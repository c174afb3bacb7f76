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
