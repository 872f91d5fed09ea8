-- What wrk asks for: the addresses in the file that PATHS names, one after the other. It tells its figures as one line of JSON.
local paths = {}
for line in io.lines(os.getenv("PATHS")) do paths[#paths + 1] = line end
wrk.headers["Cookie"] = os.getenv("COOKIE")
wrk.headers["Accept-Encoding"] = "gzip"
local at = 0
function request()
  at = at % #paths + 1
  return wrk.format("GET", paths[at])
end
function done(summary, latency)
  local e = summary.errors
  print(string.format('{"asked":%d,"errors":%d,"p50":%f,"p95":%f}', summary.requests,
    e.connect + e.read + e.write + e.status + e.timeout, latency:percentile(50) / 1000, latency:percentile(95) / 1000))
end
