package guard

import (
	"net/netip"
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// limits hold each machine to so many requests a second. Those of one IPv6 network count as one machine, and there are
// never more than mostMachines of them remembered.
type limits struct {
	rate  float64
	burst int

	mu       sync.Mutex
	machines map[netip.Prefix]*rate.Limiter
	rest     *rate.Limiter // shared by all others while the memory is full
}

const mostMachines = 1024

func (l *limits) allow(from netip.Addr, now time.Time) bool {
	network, err := machineOf(from)
	if err != nil {
		return false
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.machines == nil {
		l.machines = map[netip.Prefix]*rate.Limiter{}
		l.rest = l.fresh()
	}
	machine, ok := l.machines[network]
	if !ok {
		if len(l.machines) >= mostMachines {
			l.forget(now)
		}
		if len(l.machines) >= mostMachines {
			return l.rest.AllowN(now, 1)
		}
		machine = l.fresh()
		l.machines[network] = machine
	}
	return machine.AllowN(now, 1)
}

// machineOf is what counts as one machine: an address, or a network of IPv6.
func machineOf(from netip.Addr) (netip.Prefix, error) {
	bits := 32
	if from.Is6() {
		bits = 64
	}
	return from.Prefix(bits)
}

func (l *limits) fresh() *rate.Limiter {
	return rate.NewLimiter(rate.Limit(l.rate), l.burst)
}

// forget drops the machines that have not asked lately: a new one would be treated just the same.
func (l *limits) forget(now time.Time) {
	for network, machine := range l.machines {
		if machine.TokensAt(now) >= float64(l.burst) {
			delete(l.machines, network)
		}
	}
}
