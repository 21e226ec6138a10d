"""The whole job in one call each: the sole assembler of the parts below it."""
