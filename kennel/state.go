package kennel

// State is where a coat stands.
type State string

// The states of a coat, in the order in which a coat left alone passes through them.
const (
	StateComingIn  State = "coming in"
	StateInCoat    State = "in coat"
	StateGoingOver State = "going over"
	StateBlown     State = "blown"
)

// Window is a run of days in which a dog is in coat.
type Window struct{ From, To Date }
