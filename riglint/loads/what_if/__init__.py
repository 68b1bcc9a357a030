"""One value moved, or one part gone: what a doubt does, which value would pass, what catches."""
