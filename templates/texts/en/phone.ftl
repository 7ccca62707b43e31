# What waits on this phone.
phone-scripts-off = Scripts are off here, so nothing is kept on this phone: each form is sent when you save it.
phone-waiting-title = Waiting on this phone
phone-send-now = Send now
phone-due-now = Due now
phone-can-it = Can this phone keep counts?

# What this phone can keep.
phone-no-scripts = <strong>No.</strong> Scripts are off here, so nothing can be kept on this phone. Every page works, but only with signal.
phone-without-signal = This phone without signal
phone-secure = Trusted address (https)
phone-secure-else = Pages cannot be opened without signal. Counts are still kept while a page stays open: keep it open until it says Sent. Ask whoever hosts the club for an https address.
phone-pages = Pages open without signal
phone-pages-else = This browser refuses it here, or the host has switched it off. Open the club in the phone’s own browser, not in a private window.
phone-counts = Counts kept on the phone
phone-counts-else = This browser keeps nothing. Leave the private window, or free some space on the phone.
phone-lasting = Kept until you clear them
phone-lasting-else = The browser may clear them when space runs short, some after a week without a visit. Add the club to the home screen, and send before a long break.
phone-ask-lasting = Ask the browser to keep them
phone-what-waits = What waits on this phone
