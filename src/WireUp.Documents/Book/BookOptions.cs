using System.Collections.Immutable;
using UnitsNet;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>How a wiring book is made.</summary>
public sealed record BookOptions
{
    /// <summary>Paper.</summary>
    public PaperSize Paper { get; init; } = PaperSize.A4;

    /// <summary>The date to print, as the person writes it, or null for none; never the clock's.</summary>
    public string? Date { get; init; }

    /// <summary>The name of whoever answers for the book, to print on it; null for none.</summary>
    public string? By { get; init; }

    /// <summary>Where the planned layout's pieces lie, when it has been worked out already; null to have it worked out.</summary>
    public PlanGeometry? Geometry { get; init; }

    /// <summary>Title, or null for the railway's name.</summary>
    public string? Title { get; init; }

    /// <summary>The scale of the drawings of boards, 1 for full size, 10 for 1 : 10; null for the largest usual one at which every board fits the paper.</summary>
    public int? BoardScale { get; init; }

    /// <summary>The route along which volts are drawn: pieces, ends or places in order; empty for the longest way to the place with the fewest volts.</summary>
    public ImmutableArray<RouteStop> Route { get; init; } = [];

    /// <summary>Colours and allowances of the wiring schedule, or null for the usual ones in the layout's units.</summary>
    public ScheduleOptions? Schedule { get; init; }

    /// <summary>Length of a new coil of wire, or null for 25 m or 100 ft; common shop lengths are 10, 25 and 100 m, and 25, 50 and 100 ft.</summary>
    public Length? Coil { get; init; }
}
