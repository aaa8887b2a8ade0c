package lookstep.server.plan.file;

/** A place in the file; both from 1. */
record Mark(int line, int column) {}
