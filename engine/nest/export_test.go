package nest

// WorkshopJob and Guillotined make up jobs for the tests outside the package.
var (
	WorkshopJob = workshopJob
	Guillotined = guillotined
	ManyTops    = manyTops
	BusyJob     = busyJob
)
