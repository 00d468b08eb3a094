package guide

// SignWidth is how wide a sign is taken to be.
var SignWidth = signWidth
