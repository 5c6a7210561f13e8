"""Pictures: opening them safely, keeping them small, and measuring cracks in them; the only user of cv2 and PIL."""
