// Asks the Flexible Collision Library whether an arm touches anything, posture
// by posture: forward kinematics, then every pair whose boxes along the base's
// axes overlap, up to the first that touches. Reads scenes as ratio.py writes
// them and prints for each its name, CPU ns per state (median of the rounds), the
// same over the states alone where nothing touches, and the answers as a row of 0
// and 1.
#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/geometry/shape/box.h>
#include <fcl/geometry/shape/cylinder.h>
#include <fcl/geometry/shape/sphere.h>
#include <fcl/narrowphase/collision.h>
#include <fcl/narrowphase/collision_object.h>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace {

using json = nlohmann::json;
using Pose = fcl::Transform3d;
using Geometry = std::shared_ptr<fcl::CollisionGeometryd>;
using Object = std::unique_ptr<fcl::CollisionObjectd>;

Pose pose_of(const json &rows) {
  Pose p = Pose::Identity();
  for (int r = 0; r < 3; r++)
    for (int c = 0; c < 4; c++) p.matrix()(r, c) = rows[4 * r + c].get<double>();
  return p;
}

Geometry geometry_of(const json &g) {
  const std::string type = g["type"];
  Geometry shape;
  if (type == "box") {
    shape = std::make_shared<fcl::Boxd>(g["size"][0].get<double>(), g["size"][1].get<double>(), g["size"][2].get<double>());
  } else if (type == "cylinder") {
    shape = std::make_shared<fcl::Cylinderd>(g["radius"].get<double>(), g["length"].get<double>());
  } else if (type == "sphere") {
    shape = std::make_shared<fcl::Sphered>(g["radius"].get<double>());
  } else {
    std::vector<fcl::Vector3d> vertices;
    std::vector<fcl::Triangle> triangles;
    for (const auto &v : g["vertices"]) vertices.emplace_back(v[0].get<double>(), v[1].get<double>(), v[2].get<double>());
    for (const auto &t : g["triangles"]) triangles.emplace_back(t[0].get<int>(), t[1].get<int>(), t[2].get<int>());
    auto tree = std::make_shared<fcl::BVHModel<fcl::OBBRSSd>>();
    tree->beginModel(triangles.size(), vertices.size());
    tree->addSubModel(vertices, triangles);
    tree->endModel();
    shape = tree;
  }
  shape->computeLocalAABB();
  return shape;
}

struct Body {
  int link;
  Pose link_from_body;
  Object object;
};

struct Scene {
  std::vector<Pose> origins;  // of the joints, each turning about z
  std::vector<Body> bodies;
  std::vector<Object> obstacles;
  std::vector<std::pair<int, int>> own;  // pairs of bodies of the arm

  explicit Scene(const json &s) {
    for (const auto &o : s["origins"]) origins.push_back(pose_of(o));
    for (const auto &b : s["bodies"])
      bodies.push_back({b["link"], pose_of(b["T"]), std::make_unique<fcl::CollisionObjectd>(geometry_of(b))});
    for (auto &b : bodies) {
      b.object->setTransform(b.link_from_body);
      b.object->computeAABB();
    }
    for (const auto &o : s["obstacles"]) {
      obstacles.push_back(std::make_unique<fcl::CollisionObjectd>(geometry_of(o), pose_of(o["T"])));
      obstacles.back()->computeAABB();
    }
    for (const auto &p : s["own"]) own.emplace_back(p[0], p[1]);
  }

  bool touch(fcl::CollisionObjectd *a, fcl::CollisionObjectd *b) const {
    if (!a->getAABB().overlap(b->getAABB())) return false;
    fcl::CollisionRequestd request;
    fcl::CollisionResultd result;
    return fcl::collide(a, b, request, result) > 0;
  }

  bool valid(const std::vector<double> &q) {
    std::vector<Pose> links(origins.size() + 1, Pose::Identity());
    for (size_t i = 0; i < origins.size(); i++)
      links[i + 1] = links[i] * origins[i] * Eigen::AngleAxisd(q[i], Eigen::Vector3d::UnitZ());
    for (auto &b : bodies) {
      if (b.link == 0) continue;
      b.object->setTransform(links[b.link] * b.link_from_body);
      b.object->computeAABB();
    }
    for (auto &b : bodies)
      if (b.link > 0)
        for (auto &o : obstacles)
          if (touch(b.object.get(), o.get())) return false;
    for (auto &p : own)
      if (touch(bodies[p.first].object.get(), bodies[p.second].object.get())) return false;
    return true;
  }
};

// CPU time of this thread, ns: other work on the machine does not count.
double cpu_ns() {
  timespec t;
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return t.tv_sec * 1e9 + t.tv_nsec;
}

// median CPU ns per state; the answers go to a row of 0 and 1.
double time_of(Scene &scene, const std::vector<std::vector<double>> &states, std::string &answers) {
  std::vector<double> rounds;
  answers.assign(states.size(), '0');
  for (int r = 0; r < 3; r++) {
    const double start = cpu_ns();
    for (size_t i = 0; i < states.size(); i++) answers[i] = scene.valid(states[i]) ? '1' : '0';
    rounds.push_back((cpu_ns() - start) / states.size());
  }
  std::sort(rounds.begin(), rounds.end());
  return rounds[1];
}

}  // namespace

int main(int argc, char **argv) {
  if (argc != 2) return 2;
  const json scenes = json::parse(std::ifstream(argv[1]));
  for (const auto &kv : scenes.items()) {
    Scene scene(kv.value());
    const auto states = kv.value()["states"].get<std::vector<std::vector<double>>>();
    std::vector<std::vector<double>> valid;
    std::string answers, yes;
    const double all = time_of(scene, states, answers);
    for (size_t i = 0; i < states.size(); i++)
      if (answers[i] == '1') valid.push_back(states[i]);
    const double free = time_of(scene, valid, yes);
    std::printf("%s %.1f %.1f %s\n", kv.key().c_str(), all, free, answers.c_str());
  }
}
