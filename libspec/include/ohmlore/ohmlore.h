// The whole public interface.
#pragma once

#include "ohmlore/bands.h"
#include "ohmlore/corpus.h"
#include "ohmlore/description.h"
#include "ohmlore/document.h"
#include "ohmlore/finding.h"
#include "ohmlore/lint.h"
#include "ohmlore/model.h"
#include "ohmlore/physics.h"
#include "ohmlore/quantity.h"
#include "ohmlore/report.h"
#include "ohmlore/resolve.h"
#include "ohmlore/text.h"
#include "ohmlore/value.h"
#include "ohmlore/version.h"
#include "ohmlore/words.h"
