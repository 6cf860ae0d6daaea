using WireUp.Layouts;

namespace WireUp.Testing;

/// <summary>
/// Railways of any size as somebody would wire them: double-track stations in a row, mixed frogs, each live one gapped, a feeder at every
/// section, a district for every few stations with gaps in both rails at its borders.
/// </summary>
internal static class LargePlans
{
    private const int StationsADistrict = 3;
    private const int StationsALoop = 10;

    /// <summary>A railway of about that many turnouts.</summary>
    /// <param name="turnouts">How many; ten to a station.</param>
    /// <param name="faults">How many gaps and feeders are wrong, spread evenly over the railway.</param>
    /// <param name="seed">Frogs and lengths are drawn from it.</param>
    public static Layout Stations(int turnouts, int faults = 0, int seed = 1)
    {
        Random random = new(seed);
        TrackMaker make = new();
        int stations = Math.Max(1, turnouts / 10);
        Line line = new(make, random, faults == 0 ? int.MaxValue : Math.Max(1, stations / faults));
        for (int i = 0; i < stations; i++)
        {
            line.Station(i);
        }

        line.Close();
        return make.Build();
    }

    /// <summary>The same track before anybody has cut a gap: one feeder, at the west end.</summary>
    public static Layout Bare(int turnouts, int seed = 1)
    {
        Layout wired = Stations(turnouts, seed: seed);
        return wired with
        {
            Wiring = Wiring.None with
            {
                Boosters = [wired.Wiring.Boosters[0]],
                Districts = [wired.Wiring.Districts[0]],
                Buses = [wired.Wiring.Buses[0]],
                Feeders = [wired.Wiring.Feeders[0]],
            },
        };
    }

    private sealed class Line(TrackMaker make, Random random, int everyFault)
    {
        private string _district = "";
        private TrackEnd? _north;
        private TrackEnd? _south;
        private int _number;

        internal void Station(int number)
        {
            if (number % StationsADistrict == 0)
            {
                NewDistrict(number / StationsADistrict);
            }

            bool faulty = number % everyFault == everyFault / 2;
            Crossover(TurnoutHand.Right);
            PassingRoad(faulty ? number / everyFault % 3 : -1);
            Crossover(TurnoutHand.Left);
            Ladder(number);
        }

        internal void Close()
        {
            Road(_north!.Value);
            Road(_south!.Value);
        }

        private void NewDistrict(int number)
        {
            _district = TrackMaker.Name("d", number);
            make.District(_district);
            if (_north is { } north && _south is { } south)
            {
                make.Gap(north);
                make.Gap(south);
            }
            else
            {
                Piece.Stop one = make.Add(new Piece.Stop(new("west-north"))), other = make.Add(new Piece.Stop(new("west-south")));
                (_north, _south) = (Track(one.End("a")).End("b"), Track(other.End("a")).End("b"));
            }
        }

        private Piece.Turnout Turnout(TurnoutHand hand, bool gapped = true)
        {
            FrogKind frog = random.Next(4) switch { 0 => FrogKind.Insulated, 1 => FrogKind.Isolated, _ => FrogKind.Live };
            Piece.Turnout turnout = make.Turnout(TrackMaker.Name("T", _number++), hand, frog, frog == FrogKind.Insulated ? FrogFeed.None : FrogFeed.Contact);
            if (gapped && frog == FrogKind.Live)
            {
                make.GapFrog(turnout);
            }

            return turnout;
        }

        private Piece.Section Track(TrackEnd from, TrackEnd? to = null)
        {
            Piece.Section section = make.Section(TrackMaker.Name("s", _number++), 0.4 + random.NextDouble());
            make.Join(from, section.End("a"));
            if (to is { } end)
            {
                make.Join(section.End("b"), end);
            }

            make.Feed(_district, section);
            return section;
        }

        /// <summary>A train facing east changes from one track to the other.</summary>
        private void Crossover(TurnoutHand hand)
        {
            Piece.Turnout facing = Turnout(hand), trailing = Turnout(hand);
            bool fromNorth = hand == TurnoutHand.Right;
            make.Join(Ends(fromNorth), facing.End("points")).Join(Ends(!fromNorth), trailing.End("through"));
            Track(facing.End("diverging"), trailing.End("diverging"));
            SetEnds(fromNorth, Track(facing.End("through")).End("b"));
            SetEnds(!fromNorth, Track(trailing.End("points")).End("b"));
        }

        /// <summary>A road beside the north track; its faults are a gap left out, a feeder exchanged, or a length cut off from its feeder.</summary>
        private void PassingRoad(int fault)
        {
            Piece.Turnout west = Turnout(TurnoutHand.Left, gapped: fault != 0), east = Turnout(TurnoutHand.Right);
            make.Join(_north!.Value, west.End("points"));
            Track(west.End("through"), east.End("through"));
            Piece.Section road = Track(west.End("diverging"), east.End("diverging"));
            if (fault == 1)
            {
                make.Feed(_district, road, swap: true);
            }

            if (fault == 2)
            {
                make.Gap(road, 0.1, RailSet.Both);
            }

            _north = Track(east.End("points")).End("b");
        }

        /// <summary>Four roads off the south track that end in buffer stops, at some stations one of them in a loop.</summary>
        private void Ladder(int number)
        {
            Piece.Turnout throat = Turnout(TurnoutHand.Right);
            make.Join(_south!.Value, throat.End("points"));
            _south = Track(throat.End("through")).End("b");
            TrackEnd end = Track(throat.End("diverging")).End("b");
            for (int i = 0; i < 3; i++)
            {
                Piece.Turnout turnout = Turnout(TurnoutHand.Right);
                make.Join(end, turnout.End("points"));
                Road(turnout.End("diverging"));
                end = Track(turnout.End("through")).End("b");
            }

            if (number % StationsALoop == 0)
            {
                Loop(TrackMaker.Name("r", number), end);
            }
            else
            {
                Road(end);
            }
        }

        /// <summary>A loop that turns trains, a reversing section of its own.</summary>
        private void Loop(string district, TrackEnd from)
        {
            Piece.Turnout turnout = make.Turnout(TrackMaker.Name("T", _number++), TurnoutHand.Right, FrogKind.Insulated);
            make.Join(from, turnout.End("points"));
            Piece.Section loop = make.Between(TrackMaker.Name("s", _number++), turnout.End("through"), turnout.End("diverging"), 3);
            make.Gap(loop, 0.2, RailSet.Both);
            make.Gap(loop, 2.8, RailSet.Both);
            make.District(district, reversing: true);
            make.Feed(district, loop);
            make.Feed(_district, loop, at: 0.1);
        }

        private void Road(TrackEnd from) => make.Join(Track(from).End("b"), make.Add(new Piece.Stop(new(TrackMaker.Name("stop", _number++)))).End("a"));

        private TrackEnd Ends(bool north) => north ? _north!.Value : _south!.Value;

        private void SetEnds(bool north, TrackEnd end)
        {
            if (north)
            {
                _north = end;
            }
            else
            {
                _south = end;
            }
        }
    }
}
