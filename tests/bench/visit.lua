-- What wrk sends: reads of one path or of several in turn, or counts under keys of their own. Set by the environment:
-- VISITS (a file; each line holds a path, a cookie and a token of forms, parted by tabs), BODY (a form without its key;
-- makes it a POST), PAUSE (ms between the requests of a connection).
local function visits()
  local all = {}
  for line in io.lines(os.getenv("VISITS")) do
    local path, cookie, csrf = line:match("([^\t]*)\t([^\t]*)\t([^\t]*)")
    all[#all + 1] = { path = path, cookie = cookie, csrf = csrf }
  end
  return all
end

local threads = 0
function setup(thread)
  thread:set("number", threads)
  threads = threads + 1
end

local all, body, pause, run, sent

function init(args)
  all = visits()
  body, pause, run, sent = os.getenv("BODY"), tonumber(os.getenv("PAUSE") or ""), os.getenv("RUN"), 0
  if pause then delay = function() return math.floor(pause * (0.5 + math.random())) end end
end

function request()
  sent = sent + 1
  local n = sent + number * 7919
  local visit = all[n % #all + 1]
  local headers = { ["Accept-Encoding"] = os.getenv("ENCODING"), ["Cookie"] = visit.cookie }
  if not body then return wrk.format("GET", visit.path, headers) end
  headers["Content-Type"] = "application/x-www-form-urlencoded"
  headers["Origin"] = os.getenv("ORIGIN")
  local key = string.format("%s%04d%024d", run, number, sent)
  return wrk.format("POST", visit.path, headers, (os.getenv("FIELD") or "csrf") .. "=" .. visit.csrf .. "&key=" .. key .. "&" .. body)
end

function done(summary, latency, requests)
  io.write(string.format(
    'RESULT {"requests": %d, "seconds": %.3f, "p50": %.3f, "p99": %.3f, "bytes": %d, "failed": %d}\n',
    summary.requests, summary.duration / 1e6, latency:percentile(50) / 1e3, latency:percentile(99) / 1e3,
    summary.bytes, summary.errors.status + summary.errors.connect + summary.errors.read + summary.errors.write
      + summary.errors.timeout))
end
