"""What each part holds: credited strengths, slings, trees and anchor points."""
