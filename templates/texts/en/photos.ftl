# What is wrong with a photo

photos-not-a-photo = This is not a JPEG, PNG or WebP photo. Choose another.
photos-too-many-pixels = This photo has more than 50 million pixels. Take a smaller one.
photos-cannot-be-read = This photo cannot be read; it may have been cut off. Choose another.
photos-choose-again = Choose the photo again: a page that comes back cannot keep it.
photos-empty = This photo is empty. Choose another.
photos-too-long = This file has more than 12 MB. Take a smaller photo.

# What a photo shows

photos-of-day = { $mark }, day { $n }
