package report

// AssumedLoading is what stands in for what neither the caller nor the job says.
func AssumedLoading() Loading {
	return Loading{Load: assumedMass * Gravity, RackPerTurn: assumedRackPerTurn, RimDiameter: assumedRimDiameter}
}
