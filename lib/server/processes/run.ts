import { readSettingsFile } from "@/lib/configuration/configuration";
import { projectRoot } from "@/lib/db/folders";
import { nameWorker } from "@/lib/log/log";
import { beginLogs } from "../logging";
import { writePrivately } from "../privacy";
import { takePlace } from "./worker";

/** One of the processes that serve the web: the script that the primary starts. Databases, build and secret are there by now. */
const { PORT: port, HOST: host } = readSettingsFile(projectRoot);
writePrivately();
const place = await takePlace();
nameWorker(place.worker);
await beginLogs(false);
const { serve } = await import("../serve");
await serve({ port, host, dev: false, place });
await place.serving();
