using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Feeders;

/// <summary>
/// Slides chosen feeders to handier places without losing anything served: to a whole centimetre, and so that the farthest metal
/// that the feeder alone serves is as near as can be. Volts are better there, and a tape measure is enough.
/// </summary>
internal sealed class FeederSlide(
    FeedableTrack track, FeederCandidates finder, IReadOnlyList<Reach> built, FeederWishes wishes, ImmutableArray<Reach> asked)
{
    private const double StepMetres = 0.01, ApartMetres = 0.15;

    /// <summary>The places of the feeders after sliding, in the order of the track.</summary>
    public ImmutableArray<TrackPlace> Slide(ImmutableArray<FeederCandidate> chosen)
    {
        FeederCandidate[] now = [.. chosen];
        for (int i = 0; i < now.Length; i++)
        {
            now[i] = Best(now, i);
        }

        return [.. now.Select(candidate => candidate.Place).Order()];
    }

    private IEnumerable<TrackPlace> BuiltPlaces => track.Graph.Layout.Wiring.Feeders.Select(feeder => feeder.At);

    private FeederCandidate Best(FeederCandidate[] now, int index)
    {
        IReadOnlyList<Reach> others = [.. now.Where((_, i) => i != index).Select(each => each.Reach), .. built];
        OwnMetal own = OwnMetal.Of(track, now[index].Reach, others);
        FeederFarness farness = new(track, now[index], own.Stretches, now.Where((_, i) => i != index).Select(each => each.Place).Concat(BuiltPlaces));
        Reach[] wished = [.. asked.Where(row => wishes.Serves(now[index].Place, row)
            && !now.Where((_, i) => i != index).Any(other => wishes.Serves(other.Place, row)))];
        ILookup<PieceId, double> beside = now.Where((_, i) => i != index).Select(each => each.Place).Concat(BuiltPlaces)
            .ToLookup(place => place.Section, place => place.MetresFromA);
        return Places(now[index].Place)
            .Where(place => !beside[place.Section].Any(metres => Math.Abs(metres - place.MetresFromA) < ApartMetres))
            .Where(place => wished.All(row => wishes.Serves(place, row)))
            .Select(finder.Make)
            .Where(candidate => own.IsServedBy(candidate.Reach))
            .OrderBy(candidate => Math.Round(farness.Metres(candidate), 3))
            .ThenBy(candidate => candidate.OffCentreMetres)
            .ThenBy(candidate => candidate.Place)
            .FirstOrDefault(now[index]);
    }

    /// <summary>Whole centimetres, from whichever end is written, within the span and within a reach.</summary>
    private IEnumerable<TrackPlace> Places(TrackPlace place)
    {
        FeedSpan span = track.Spans.First(each => each.Section == place.Section && each.Holds(place.MetresFromA));
        double reach = track.Graph.Layout.MaxFeederDistance.Meters;
        double from = Math.Max(span.FromMetres, place.MetresFromA - reach), to = Math.Min(span.ToMetres, place.MetresFromA + reach);
        int first = (int)Math.Ceiling((from / StepMetres) - 1e-9), last = (int)Math.Floor((to / StepMetres) + 1e-9);
        for (int step = first; step <= last; step++)
        {
            yield return new(place.Section, Math.Round(step * StepMetres, 4));
        }
    }

    /// <summary>What one feeder alone serves.</summary>
    private sealed record OwnMetal(ImmutableArray<Stretch> Stretches, ImmutableArray<int> Nodes)
    {
        public static OwnMetal Of(FeedableTrack track, Reach reach, IReadOnlyList<Reach> others)
        {
            ILookup<int, Stretch> elsewhere = others.SelectMany(other => other.Stretches).ToLookup(stretch => stretch.Link);
            HashSet<int> nodes = [.. others.SelectMany(other => other.NodeMetres.Keys)];
            return new(
                [.. reach.Stretches
                    .Where(stretch => !track.IsSwitched(track.Graph.Links[stretch.Link].From))
                    .SelectMany(stretch => Subtract(stretch, elsewhere[stretch.Link]))],
                [.. reach.NodeMetres.Keys.Where(node => !nodes.Contains(node) && !track.IsSwitched(node))]);
        }

        public bool IsServedBy(Reach reach) =>
            Nodes.All(reach.Holds)
            && Stretches.All(own => !Subtract(own, reach.Stretches.Where(stretch => stretch.Link == own.Link)).Any());

        private static IEnumerable<Stretch> Subtract(Stretch whole, IEnumerable<Stretch> parts)
        {
            double from = whole.FromMetres;
            foreach (Stretch part in parts.OrderBy(part => part.FromMetres))
            {
                if (part.FromMetres > from + FeederTolerance.Metres)
                {
                    yield return whole with { FromMetres = from, ToMetres = Math.Min(part.FromMetres, whole.ToMetres) };
                }

                from = Math.Max(from, part.ToMetres);
                if (from >= whole.ToMetres - FeederTolerance.Metres)
                {
                    yield break;
                }
            }

            if (whole.ToMetres > from + FeederTolerance.Metres)
            {
                yield return whole with { FromMetres = from };
            }
        }
    }
}
