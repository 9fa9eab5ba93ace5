"""What stands under the card: one file a job."""
