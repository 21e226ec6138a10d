"""What several tests share: open data, invented wearers, measuring helpers."""
