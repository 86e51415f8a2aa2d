package role

// rules are the readers of signs. Each adds its reasons, and the heaviest role
// wins. The order matters where one looks at what others found for the same or
// an earlier number: forms first, tests and sizes before what is told of them.
var rules = []func(*context, int){
	ofForm, ofProportion,
	ofP, ofAlpha, ofDF, ofStatistic, ofEffect, ofConfidence, ofBound,
	ofSpread, ofRange,
	ofSize, ofEachSize, ofPeople, ofNouns,
	ofPartOfWhole, ofTotal, ofCountWithPercentage, ofEvents,
	ofCitation, ofYear,
	ofCode, ofCompound, ofLabel,
	ofTime, ofMeasuredTime,
	ofSetUnit, ofSettingName, ofStrength, ofTaper, ofAdjective, ofSetVerb, ofCross, ofHowOften, ofSetPlace, ofDimension,
	ofThreshold, ofCriterion,
	ofPercentClaim, ofPercentLevel, ofShare,
	ofTimes, ofPart,
	ofChange, ofMoreOrLess,
	ofCentre, ofLevel, ofComparedLevel, ofRespectively,
	ofMoney,
	ofExponent, ofListMark,
}
