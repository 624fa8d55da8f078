/**
 * ROLES: what sections are called and what they do. Form, dynamics, harmony and melody enter; one
 * name by place and one by function leave for each section.
 */
package undersong.estimate.role;
