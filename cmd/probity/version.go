package main

import (
	"runtime/debug"
	"sync"
)

// version tells one state of the program from another: what was read and
// judged by one may be read otherwise by the next. Builds from a checkout carry
// its revision.
var version = sync.OnceValue(func() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "unknown"
	}
	return info.Main.Version
})
