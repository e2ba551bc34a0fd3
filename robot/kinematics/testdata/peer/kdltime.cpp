// Times Orocos KDL's forward kinematics, Jacobian and Levenberg-Marquardt
// inverse on the two arms of the test data, so that ratios to this package can
// be taken on one machine. Prints one line a figure: arm, what, CPU ns per call
// (median of the rounds).
#include <kdl/chain.hpp>
#include <kdl/chainfksolverpos_recursive.hpp>
#include <kdl/chainiksolverpos_lma.hpp>
#include <kdl/chainjnttojacsolver.hpp>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <functional>
#include <random>
#include <string>
#include <vector>

namespace {

const double kHalf = M_PI / 2;

// A turning joint about z followed by a fixed displacement.
void link(KDL::Chain &c, const KDL::Frame &f) {
  c.addSegment(KDL::Segment(KDL::Joint(KDL::Joint::RotZ), f));
}

KDL::Chain spherical() {
  KDL::Chain c;
  link(c, KDL::Frame(KDL::Rotation::RotX(-kHalf)));
  link(c, KDL::Frame(KDL::Vector(0.4318, 0, 0.1244)));
  link(c, KDL::Frame(KDL::Rotation::RotX(-kHalf), KDL::Vector(0.0203, 0.4318, 0)));
  link(c, KDL::Frame(KDL::Rotation::RotX(kHalf)));
  link(c, KDL::Frame(KDL::Rotation::RotX(-kHalf)));
  link(c, KDL::Frame::Identity());
  return c;
}

KDL::Chain three_parallel() {
  KDL::Chain c;
  link(c, KDL::Frame(KDL::Rotation::RotX(kHalf), KDL::Vector(0, 0, 0.18)));
  link(c, KDL::Frame(KDL::Vector(0.61, 0, 0)));
  link(c, KDL::Frame(KDL::Vector(0.57, 0, 0)));
  link(c, KDL::Frame(KDL::Rotation::RotX(kHalf), KDL::Vector(0, 0, 0.17)));
  link(c, KDL::Frame(KDL::Rotation::RotX(-kHalf), KDL::Vector(0, 0, 0.12)));
  link(c, KDL::Frame(KDL::Vector(0, 0, 0.11)));
  return c;
}

// CPU time of this thread, ns: other work on the machine does not count.
double cpu_ns() {
  timespec t;
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return t.tv_sec * 1e9 + t.tv_nsec;
}

double median_ns(int rounds, int calls, const std::function<void(int)> &call) {
  std::vector<double> t;
  for (int r = 0; r < rounds; r++) {
    double start = cpu_ns();
    for (int i = 0; i < calls; i++) call(i);
    t.push_back((cpu_ns() - start) / calls);
  }
  std::sort(t.begin(), t.end());
  return t[t.size() / 2];
}

void time_arm(const std::string &arm, const KDL::Chain &chain) {
  const int n = 4096;
  std::mt19937_64 random(1);
  std::uniform_real_distribution<double> angle(-M_PI, M_PI);
  std::vector<KDL::JntArray> q(n + 1, KDL::JntArray(6));
  for (auto &v : q)
    for (int j = 0; j < 6; j++) v(j) = angle(random);
  KDL::ChainFkSolverPos_recursive fk(chain);
  KDL::ChainJntToJacSolver jac(chain);
  Eigen::Matrix<double, 6, 1> weights = Eigen::Matrix<double, 6, 1>::Ones();
  KDL::ChainIkSolverPos_LMA lma(chain, weights, 1e-6, 500, 1e-15);
  std::vector<KDL::Frame> pose(n);
  KDL::Jacobian j(6);
  KDL::JntArray out(6);
  double f = median_ns(9, n * 8, [&](int i) { fk.JntToCart(q[i % n], pose[i % n]); });
  double d = median_ns(9, n * 8, [&](int i) { jac.JntToJac(q[i % n], j); });
  double k = median_ns(3, n, [&](int i) { lma.CartToJnt(q[i + 1], pose[i], out); });
  std::printf("%s forward %.1f\n%s jacobian %.1f\n%s lma %.1f\n", arm.c_str(), f, arm.c_str(), d, arm.c_str(), k);
}

}  // namespace

int main() {
  time_arm("sphw6", spherical());
  time_arm("offw6", three_parallel());
}
