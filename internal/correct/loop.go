package correct

// Loop is what closing the loop found.
type Loop struct{}
