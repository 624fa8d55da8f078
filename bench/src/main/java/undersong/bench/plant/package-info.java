/**
 * The planted set: short songs made by a seeded composer, each with stated techniques and as little
 * else as can be, played by soundfonts, and the agreement of the program's findings with them, from
 * audio and from the true reading.
 */
package undersong.bench.plant;
