/**
 * fast-check, with the same cases on every run: whether a change passes must not hang on luck. PROPERTY_SEED=random
 * hunts for new ones; a failure names the seed with which it comes again (PROPERTY_SEED=number).
 */
import fc from "fast-check";

const { PROPERTY_SEED = "20261128" } = process.env;

if (PROPERTY_SEED !== "random") fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(PROPERTY_SEED) });

export default fc;
