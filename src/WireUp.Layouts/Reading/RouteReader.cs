using System.Collections.Immutable;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads a route, <c>yard-1 &gt; T3 &gt; loop@2 m</c>: pieces, ends or places in the order in which a train comes to them.</summary>
internal sealed class RouteReader(ReadContext context, PieceTable pieces)
{
    private const string Expected = "pieces, ends or places such as yard-1 > T3.diverging > loop@2 m";

    public ImmutableArray<RouteStop>? Read(string text, TextPosition at)
    {
        ImmutableArray<RouteStop>.Builder stops = ImmutableArray.CreateBuilder<RouteStop>();
        foreach (string part in text.Split('>', StringSplitOptions.TrimEntries))
        {
            if (part.Length == 0)
            {
                context.Add(LayoutRules.UnclearChain, at, text, "a route needs a name before and after each \">\"", Expected);
                return null;
            }

            if (Stop(part, at) is not { } stop)
            {
                return null;
            }

            stops.Add(stop);
        }

        return stops.ToImmutable();
    }

    private RouteStop? Stop(string text, TextPosition at)
    {
        if (text.Contains('@', StringComparison.Ordinal))
        {
            return new PlaceReader(context, pieces).Read(text, at) is { } place ? OnSection(place, text, at) : null;
        }

        if (pieces.TryGet(text, out _) || !text.Contains('.', StringComparison.Ordinal))
        {
            return pieces.Find(text, at, context, out Piece? piece) && piece is not null ? new RouteStop.Through(piece.Id) : null;
        }

        return pieces.FindEnd(text, at, context) is { } end ? new RouteStop.AtEnd(end) : null;
    }

    /// <summary>Which way along a moving bridge leads where depends on its position, so a route names a bridge as a whole.</summary>
    private RouteStop? OnSection(TrackPlace place, string text, TextPosition at)
    {
        if (pieces.TryGet(place.Section.Name, out Piece? piece) && piece is Piece.Section)
        {
            return new RouteStop.AtPlace(place);
        }

        context.Add(LayoutRules.PlaceOutside, at, text, $"a route cannot begin or end on the bridge of \"{place.Section}\"", $"{place.Section} alone");
        return null;
    }
}
