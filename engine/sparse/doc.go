// Package sparse factors large symmetric positive definite matrices of which
// most entries are zero, as surfaces give them: A = L Lᵀ by Cholesky, with an
// order of elimination that keeps L sparse, the symbolic part used again when
// only values change.
package sparse
