package guard

import (
	"context"
	"errors"
	"net"
	"net/netip"
	"slices"
	"strconv"
	"syscall"

	"tuckup/kennel"
)

// Listen opens the address, like "127.0.0.1:8420"; port 0 is any that is free. Without lan only 127.0.0.1 can be listened
// on; with lan it stands for all the machine's addresses. hosts are what the desk may be called by, its own
// machine's first. A wrong address, or one that is taken, is a *kennel.InputError about --listen.
func Listen(ctx context.Context, address string, lan bool) (l net.Listener, hosts []string, err error) {
	bad := func(what, try string) (net.Listener, []string, error) {
		return nil, nil, &kennel.InputError{Field: "--listen", Value: address, What: what, Try: try}
	}
	const example = "--listen 127.0.0.1:8420"
	host, port, err := net.SplitHostPort(address)
	if err != nil {
		return bad("not an address and a port", example)
	}
	if n, err := strconv.Atoi(port); err != nil || n < 0 || n > 65535 || strconv.Itoa(n) != port {
		return bad("the port is not a whole number from 0 to 65535", example)
	}
	if host == "localhost" {
		host = "127.0.0.1"
	}
	ip, err := netip.ParseAddr(host)
	switch {
	case err != nil || !ip.Is4():
		return bad("not an address of four numbers and a port", example)
	case host != "127.0.0.1" && !lan:
		return bad("other machines could ask there", example+", or --lan to let phones in with a pairing code")
	case host != "127.0.0.1" && !ip.IsPrivate() && !ip.IsLinkLocalUnicast():
		return bad("not an address of a private network", "--lan with "+example)
	case host == "127.0.0.1" && lan:
		host = "0.0.0.0"
	}
	var config net.ListenConfig
	l, err = config.Listen(ctx, "tcp4", net.JoinHostPort(host, port))
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return bad("the port is taken, perhaps by a desk that is open already", "--listen 127.0.0.1:0 for any free port")
	case err != nil:
		return bad("can't be listened on: "+err.Error(), example)
	}
	if a, ok := l.Addr().(*net.TCPAddr); ok {
		port = strconv.Itoa(a.Port)
	}
	names := []string{"127.0.0.1", "localhost"}
	switch host {
	case "127.0.0.1":
	case "0.0.0.0":
		names = append(names, privateAddresses()...)
	default:
		names = []string{host}
	}
	for _, n := range names {
		if port != "80" { // which browsers leave out
			n = net.JoinHostPort(n, port)
		}
		hosts = append(hosts, n)
	}
	return limited(l), hosts, nil
}

// privateAddresses are the machine's own addresses of four numbers on private networks, those that homes use first.
func privateAddresses() (out []string) {
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return nil // then phones find no name that is let in, and the terminal shows the machine's own only
	}
	var found []netip.Addr
	for _, a := range addresses {
		if p, err := netip.ParsePrefix(a.String()); err == nil && p.Addr().Is4() && p.Addr().IsPrivate() {
			found = append(found, p.Addr())
		}
	}
	slices.SortFunc(found, func(a, b netip.Addr) int { return b.Compare(a) }) // 192.168, 172.16 to 31, 10
	for _, a := range slices.Compact(found) {
		out = append(out, a.String())
	}
	return out
}
