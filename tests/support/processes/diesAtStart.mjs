process.exit(3);
