-- What wrk sends: reads of one path or of several in turn, or counts under keys of their own. Set by the environment:
-- PATHS, COOKIES and CSRFS (one a line, the n-th of each go together), BODY (a form without its key; makes it a POST),
-- PAUSE (ms between the requests of a connection).
local function lines(name)
  local all = {}
  for line in (os.getenv(name) or ""):gmatch("[^\n]+") do all[#all + 1] = line end
  return all
end

local threads = 0
function setup(thread)
  thread:set("number", threads)
  threads = threads + 1
end

local paths, cookies, csrfs, body, pause, run, sent

function init(args)
  paths, cookies, csrfs = lines("PATHS"), lines("COOKIES"), lines("CSRFS")
  body, pause, run, sent = os.getenv("BODY"), tonumber(os.getenv("PAUSE") or ""), os.getenv("RUN"), 0
  if pause then delay = function() return math.floor(pause * (0.5 + math.random())) end end
end

function request()
  sent = sent + 1
  local n = sent + number * 7919
  local at = n % #paths
  local headers = { ["Accept-Encoding"] = os.getenv("ENCODING"), ["Cookie"] = cookies[at % math.max(#cookies, 1) + 1] }
  if not body then return wrk.format("GET", paths[at + 1], headers) end
  headers["Content-Type"] = "application/x-www-form-urlencoded"
  headers["Origin"] = os.getenv("ORIGIN")
  local key = string.format("%s%04d%024d", run, number, sent)
  return wrk.format("POST", paths[at + 1], headers, (os.getenv("FIELD") or "csrf") .. "=" .. (csrfs[at % math.max(#csrfs, 1) + 1] or "") .. "&key=" .. key .. "&" .. body)
end

function done(summary, latency, requests)
  io.write(string.format(
    'RESULT {"requests": %d, "seconds": %.3f, "p50": %.3f, "p99": %.3f, "bytes": %d, "failed": %d}\n',
    summary.requests, summary.duration / 1e6, latency:percentile(50) / 1e3, latency:percentile(99) / 1e3,
    summary.bytes, summary.errors.status + summary.errors.connect + summary.errors.read + summary.errors.write
      + summary.errors.timeout))
end
