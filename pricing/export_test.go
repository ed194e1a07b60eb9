package pricing

// MakePlanKeeping is [MakePlan] that keeps so few ways to have taken some foods.
var MakePlanKeeping = makePlan
