package loom

import "sync"

// workers is how many states are solved side by side.
const workers = 2

// sideBySide runs a function for every worker and waits for all.
func sideBySide(n int, run func(worker int)) {
	var wait sync.WaitGroup
	for k := 1; k < n; k++ {
		wait.Go(func() { run(k) })
	}
	run(0)
	wait.Wait()
}
