package plan_test

var armFaults = []fault{}
