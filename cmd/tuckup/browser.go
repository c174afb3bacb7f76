package main

import (
	"errors"
	"fmt"
	"os/exec"
	"runtime"
	"time"
)

// browserTools are the programs that open an address in the browser of the person at the machine, the usual one first.
func browserTools(system string) [][]string {
	switch system {
	case "windows":
		return [][]string{{"rundll32", "url.dll,FileProtocolHandler"}}
	case "darwin":
		return [][]string{{"open"}}
	}
	return [][]string{{"xdg-open"}, {"sensible-browser"}, {"x-www-browser"}}
}

// showInBrowser opens an address in the browser. The browser outlives this program.
func showInBrowser(address string) error {
	var all []error
	for _, tool := range browserTools(runtime.GOOS) {
		c := exec.Command(tool[0], append(tool[1:], address)...)
		c.SysProcAttr = apart()
		if err := c.Start(); err != nil {
			all = append(all, err)
			continue
		}
		ended := make(chan error, 1)
		go func() { ended <- c.Wait() }()
		const soon = 2 * time.Second // a tool that can't do it says so at once; some stay as long as the browser is open
		select {
		case err := <-ended:
			if err == nil {
				return nil
			}
			all = append(all, fmt.Errorf("%s: %w", tool[0], err))
		case <-time.After(soon):
			return nil
		}
	}
	return errors.Join(all...)
}
