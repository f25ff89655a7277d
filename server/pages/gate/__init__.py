"""The gates: release a hold point, sign the final inspection, release a frame, ship it; or see what each waits for."""
