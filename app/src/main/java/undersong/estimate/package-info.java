/**
 * The contract of an estimator: features, earlier facets and corrections enter, one facet leaves.
 * Each task has a package of its own below.
 */
package undersong.estimate;
