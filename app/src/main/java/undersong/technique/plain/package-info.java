/** A reading and a finding in; the same bars without the technique out, to be heard beside it. */
package undersong.technique.plain;
