using WireUp.Layouts;

namespace WireUp.Testing;

/// <summary>Track made to be hard on the search for shorts by position: live frogs, and no gaps.</summary>
internal static class HardPlans
{
    /// <summary>A ladder fed at its lead; its roads are fed too, or not.</summary>
    public static Layout Ladder(int turnouts, bool fedRoads)
    {
        TrackMaker make = new();
        make.District("d");
        Piece.Section lead = make.Section("lead");
        TrackEnd end = lead.End("b");
        make.Feed("d", lead);
        for (int i = 0; i < turnouts; i++)
        {
            Piece.Turnout turnout = make.Turnout(TrackMaker.Name("T", i), TurnoutHand.Right);
            make.Join(end, turnout.End("points"));
            Piece.Section road = make.Between(TrackMaker.Name("road", i), turnout.End("diverging"));
            end = turnout.End("through");
            if (fedRoads)
            {
                make.Feed("d", road);
            }
        }

        make.Between("last", end);
        return make.Build();
    }

    /// <summary>Two ladders that face each other, their roads joined: rings of frogs. Fed at both leads, and at some roads.</summary>
    public static Layout Yard(int turnouts, int everyFedRoad)
    {
        TrackMaker make = new();
        make.District("d");
        Piece.Section west = make.Section("west"), east = make.Section("east");
        (TrackEnd westEnd, TrackEnd eastEnd) = (west.End("b"), east.End("a"));
        make.Feed("d", west);
        make.Feed("d", east);
        for (int i = 0; i < turnouts / 2; i++)
        {
            Piece.Turnout one = make.Turnout(TrackMaker.Name("W", i), TurnoutHand.Right), other = make.Turnout(TrackMaker.Name("E", i), TurnoutHand.Left);
            make.Join(westEnd, one.End("points")).Join(eastEnd, other.End("points"));
            Piece.Section road = make.Between(TrackMaker.Name("road", i), one.End("diverging"), other.End("diverging"));
            (westEnd, eastEnd) = (one.End("through"), other.End("through"));
            if (everyFedRoad > 0 && i % everyFedRoad == everyFedRoad - 1)
            {
                make.Feed("d", road);
            }
        }

        make.Between("last", westEnd, eastEnd);
        return make.Build();
    }

    /// <summary>Two main tracks with crossovers between them, facing one way and the other in turn. Fed at the west end only, or everywhere.</summary>
    public static Layout Crossovers(int turnouts, bool fedEverywhere)
    {
        TrackMaker make = new();
        make.District("d");
        Piece.Section north = make.Section("north"), south = make.Section("south");
        (TrackEnd northEnd, TrackEnd southEnd) = (north.End("b"), south.End("b"));
        make.Feed("d", north);
        make.Feed("d", south);
        for (int i = 0; i < turnouts / 2; i++)
        {
            TurnoutHand hand = i % 2 == 0 ? TurnoutHand.Right : TurnoutHand.Left;
            Piece.Turnout facing = make.Turnout(TrackMaker.Name("F", i), hand), trailing = make.Turnout(TrackMaker.Name("G", i), hand);
            make.Join(i % 2 == 0 ? northEnd : southEnd, facing.End("points")).Join(i % 2 == 0 ? southEnd : northEnd, trailing.End("through"));
            make.Between(TrackMaker.Name("x", i), facing.End("diverging"), trailing.End("diverging"), 0.2);
            Piece.Section one = make.Section(TrackMaker.Name("n", i)), other = make.Section(TrackMaker.Name("s", i));
            (TrackEnd northNext, TrackEnd southNext) = i % 2 == 0
                ? (facing.End("through"), trailing.End("points"))
                : (trailing.End("points"), facing.End("through"));
            make.Join(northNext, one.End("a")).Join(southNext, other.End("a"));
            (northEnd, southEnd) = (one.End("b"), other.End("b"));
            if (fedEverywhere)
            {
                make.Feed("d", one);
                make.Feed("d", other);
            }
        }

        return make.Build();
    }

    /// <summary>Tracks side by side, and between neighbours double slips with live frogs, in columns like bricks. Gapped at the west frogs only, fed at the west end.</summary>
    public static Layout Slips(int rows, int columns)
    {
        TrackMaker make = new();
        make.District("d");
        TrackEnd[] ends = [.. Enumerable.Range(0, rows).Select(row =>
        {
            Piece.Section track = make.Section(TrackMaker.Name("west", row));
            make.Feed("d", track);
            return track.End("b");
        })];
        for (int column = 0; column < columns; column++)
        {
            for (int row = column % 2; row + 1 < rows; row += 2)
            {
                Piece.Slip slip = make.Add(new Piece.Slip(new($"X{row}-{column}"), Double: true, FrogKind.Live) { Feed = FrogFeed.Contact });
                make.Join(ends[row], slip.End("a1")).Join(ends[row + 1], slip.End("b1"));
                make.Gap(slip.End("a1"), RailSet.Left);
                make.Gap(slip.End("b1"), RailSet.Right);
                (ends[row], ends[row + 1]) = (slip.End("b2"), slip.End("a2"));
            }
        }

        for (int row = 0; row < rows; row++)
        {
            Piece.Section track = make.Section(TrackMaker.Name("east", row));
            make.Join(ends[row], track.End("a"));
        }

        return make.Build();
    }

    /// <summary>Live scissors crossovers one after the other on a double track, fed at its west end, or everywhere.</summary>
    public static Layout Scissors(int count, bool fedEverywhere)
    {
        TrackMaker make = new();
        make.District("d");
        Piece.Section north = make.Section("north"), south = make.Section("south");
        (TrackEnd a, TrackEnd b) = (north.End("b"), south.End("b"));
        make.Feed("d", north);
        make.Feed("d", south);
        for (int i = 0; i < count; i++)
        {
            Piece.Scissors scissors = make.Add(new Piece.Scissors(new(TrackMaker.Name("X", i)), FrogKind.Live));
            make.Join(a, scissors.End("a1")).Join(b, scissors.End("b1"));
            Piece.Section one = make.Section(TrackMaker.Name("n", i)), other = make.Section(TrackMaker.Name("s", i));
            make.Join(scissors.End("a2"), one.End("a")).Join(scissors.End("b2"), other.End("a"));
            (a, b) = (one.End("b"), other.End("b"));
            if (fedEverywhere)
            {
                make.Feed("d", one);
                make.Feed("d", other);
            }
        }

        return make.Build();
    }

    /// <summary>
    /// Turnouts joined at random, any leg to any points, all frogs live and nothing gapped; a few sections fed. No closed walk
    /// exchanges the rails: every turnout hands out one plus end and two minus ends, and plus meets minus, or minus plus, through a section.
    /// </summary>
    public static Layout Tangle(int turnouts, int feeders, int seed)
    {
        Random random = new(seed);
        TrackMaker make = new();
        make.District("d");
        List<TrackEnd> plus = [], minus = [];
        for (int i = 0; i < turnouts; i++)
        {
            Piece.Turnout turnout = make.Turnout(TrackMaker.Name("T", i), random.Next(2) == 0 ? TurnoutHand.Left : TurnoutHand.Right);
            // Half of the turnouts face east and half face west, so that there are as many ends to join on either side.
            (i % 2 == 0 ? plus : minus).Add(turnout.End("points"));
            (i % 2 == 0 ? minus : plus).AddRange([turnout.End("through"), turnout.End("diverging")]);
        }

        TrackEnd[] others = [.. minus];
        random.Shuffle(others);
        for (int i = 0; i < plus.Count; i++)
        {
            Piece.Section section = make.Between(TrackMaker.Name("s", i), plus[i], others[i]);
            if (i < feeders)
            {
                make.Feed("d", section);
            }
        }

        return make.Build();
    }

    /// <summary>
    /// A question of logic as track. Hand switches are its variables. Each clause is a stage between two sections whose rail is gapped and
    /// bridged by several switches side by side, each in one position: current gets through all stages, from one district to
    /// another that swaps polarity, exactly when the switches satisfy every clause.
    /// </summary>
    /// <param name="variables">How many switches.</param>
    /// <param name="clauses">For each clause its literals: the variable from 1, negative where the switch must be off.</param>
    public static Layout Clauses(int variables, IReadOnlyList<int[]> clauses)
    {
        TrackMaker make = new();
        make.District("d");
        for (int variable = 1; variable <= variables; variable++)
        {
            make.Switch(TrackMaker.Name("V", variable), "on", "off");
        }

        Piece.Section start = make.Section("start"), end = make.Section("end");
        make.District("swapped", reversing: true);
        make.Feed("d", start);
        make.Feed("swapped", end);
        TrackEnd at = start.End("b");
        for (int clause = 0; clause < clauses.Count; clause++)
        {
            Piece.Section section = make.Section(TrackMaker.Name("c", clause), 1);
            make.Join(at, section.End("a"));
            foreach (int literal in clauses[clause])
            {
                make.Gap(section, 0.5, RailSet.Left, new(new(TrackMaker.Name("V", Math.Abs(literal))), literal > 0 ? "on" : "off"));
            }

            at = section.End("b");
        }

        make.Join(at, end.End("a"));
        // The other rail is cut for good, so that only the clauses decide.
        make.Gap(start, 0.45, RailSet.Right);
        return make.Build();
    }

    /// <summary>Blocks in a row under direct control, each with a switch that gives it one of several cabs. With or without gaps between.</summary>
    public static Layout Blocks(int blocks, int cabs, int everyGapLeftOut)
    {
        TrackMaker make = new() { Control = ControlSystem.Direct };
        string[] names = [.. Enumerable.Range(0, cabs).Select(cab => TrackMaker.Name("cab", cab))];
        foreach (string name in names)
        {
            make.District(name);
        }

        TrackEnd? before = null;
        for (int i = 0; i < blocks; i++)
        {
            Piece.Section block = make.Section(TrackMaker.Name("block", i), 2);
            make.Switch(TrackMaker.Name("B", i), [.. names, "off"]);
            foreach (string name in names)
            {
                make.Feed(name, block, when: new(new(TrackMaker.Name("B", i)), name));
            }

            if (before is { } end)
            {
                make.Join(end, block.End("a"));
                if (everyGapLeftOut == 0 || i % everyGapLeftOut != 0)
                {
                    make.Gap(end);
                }
            }

            before = block.End("b");
        }

        return make.Build();
    }
}
