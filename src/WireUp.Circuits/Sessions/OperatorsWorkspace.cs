using System.Collections.Immutable;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// The operators of a session, counted by the locomotives that may be driven at one time: a train takes as many as it has locomotives, but
/// never more than there are.
/// </summary>
internal sealed class OperatorsWorkspace(ImmutableArray<TrainWorkspace> trains, int movingAtOnce, SeededStreamWorkspace chance)
{
    private int _free;
    private TrainWorkspace? _next;

    /// <summary>One more comes to the railway.</summary>
    internal void Comes() => _free++;

    /// <summary>Those of a train are free again.</summary>
    internal void Leaves(TrainWorkspace train) => _free += Needs(train);

    /// <summary>
    /// Operators without a train take one, drawn at random from those that stand; where it needs more than are free, they wait for it.
    /// </summary>
    /// <param name="depart">Sends a train on a trip, if it can move.</param>
    /// <returns>Whether some are left although no train that stands can move.</returns>
    internal bool TakeTrains(Func<TrainWorkspace, bool> depart)
    {
        List<TrainWorkspace> standing = [.. trains.Where(train => train.State == TrainDoing.Standing)];
        while (_free > 0 && Draw(standing) is { } train)
        {
            if (Needs(train) > _free)
            {
                _next = train;
                return false;
            }

            if (depart(train))
            {
                _free -= Needs(train);
            }
        }

        return _free > 0;
    }

    private TrainWorkspace? Draw(List<TrainWorkspace> standing)
    {
        TrainWorkspace? train = _next is { State: TrainDoing.Standing } ? _next : (standing.Count > 0 ? standing[chance.Below(standing.Count)] : null);
        _next = null;
        if (train is not null)
        {
            standing.Remove(train);
        }

        return train;
    }

    private int Needs(TrainWorkspace train) => Math.Min(train.Unit.Locomotives, movingAtOnce);
}
